#pragma once
// What holds a rail post against the push at its top: a hold-down at its upper bolt, or concrete of its own at its
// foot. Internal to the frame.
//
// UNITS  pounds, inches, and pounds per square foot a foot of depth for what the soil bears sideways.

#include <string_view>

#include "engine/frame/side.hpp"

namespace pitchboard {

/// RETURNS the value of the row of data/post_footing.toml.
[[nodiscard]] double post_footing_figure(std::string_view key);

/// How deep a pole stands in the ground that nothing holds at the surface, d = A/2 (1 + √(1 + 4.36 h/A)) with
/// A = 2.34 P / (S1 b) and S1 the soil's bearing at a third of d. REQUIRES all above 0. SOURCE from memory: IBC
/// 1807.3.2.1.
[[nodiscard]] Length pole_depth(Force push, Length height, Length width, double bearing_per_foot);

/// Room along a stringer that the bolts of the post at `x` and, where the job asks, its hold-down take inside; the
/// hold-down's block stands on the side where more is left of `under`, the stretch that the angle under the tread has.
[[nodiscard]] Interval room_behind_post(const Layout& layout, Length x, Interval under);

/// True where the job wants the lowest posts in concrete and the landing can be opened for them.
[[nodiscard]] bool feet_in_concrete(const Layout& layout);
struct PostFooting {
  Interval out, across, up;
  Length post_foot;  ///< lower end of the post
};
[[nodiscard]] PostFooting post_footing(const Frame& frame, const Side& side, Length x,
                                       const std::vector<std::size_t>& ground);
void add_footing(Frame& frame, const Side& side, std::size_t post, const PostFooting& footing);
/// What has to be said once about the posts' bolts and footings, or why they are not as asked.
void note_posts(Frame& frame, const Layout& layout);

/// Behind every post's bolts a block to the next stringer, and on it a hold-down for the upper bolt; a note names the
/// posts where none fits. REQUIRES every other part and fastener in its place.
void add_hold_downs(Frame& frame, const Layout& layout, const StringerParts& stringers);
/// RETURNS the highest that the middle of a block may be whose hold-down takes a bolt at that height.
[[nodiscard]] Length highest_block(Length bolt);
/// A block and what may hold its end to the post's stringer where that is no long angle: screws through a short one,
/// and straight ones through the stringer, by turns.
struct ShortTies {
  Frame frame;
  std::size_t block = 0;
};
[[nodiscard]] ShortTies short_ties(const Job& job);
/// See frame.hpp.
[[nodiscard]] bool count_hold_downs(Frame& frame, const Layout& layout, const StringerParts& stringers,
                                    const std::vector<std::size_t>& posts, const HoldDownItems& items);

}  // namespace pitchboard
