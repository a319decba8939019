// The line of support under long stringers: from a stringer's lower edge over beam, bolts and posts into the ground.

#include <algorithm>
#include <cmath>

#include "engine/base/sort.hpp"
#include "engine/strength/calculator.hpp"
#include "engine/strength/statics.hpp"

namespace pitchboard {
namespace {

/// RETURNS where the parts stand across the stair, sorted, inches.
std::vector<double> places_of(const Frame& frame, const std::vector<std::size_t>& parts) {
  std::vector<double> places;
  for (const std::size_t part : parts) places.push_back(in_inches(box(frame.parts[part].solid)[1].middle()));
  sort_stably(places);
  return places;
}

/// Greatest distance between neighbouring posts under a beam, inches, middle to middle; with one post the whole beam.
double beam_span(const Frame& frame, const std::vector<double>& places, std::size_t beam) {
  double span = places.size() < 2 ? in_inches(box(frame.parts[beam].solid)[1].size()) : 0.0;
  for (std::size_t i = 0; i + 1 < places.size(); ++i) span = std::max(span, places[i + 1] - places[i]);
  return span;
}

/// RETURNS the most that one post takes of what the stringers lay on a beam that carries on over its posts. Beyond the
/// outer posts by the lever. `posts`: sorted.
double heaviest_post(const std::vector<double>& posts, const std::vector<LineLoad>& loads) {
  std::vector<double> spans;
  for (std::size_t i = 0; i + 1 < posts.size(); ++i) spans.push_back(posts[i + 1] - posts[i]);
  double all = 0, first = 0, last = 0;
  BeamLoads between;
  for (const auto& [across, force] : loads) {
    all += force;
    if (spans.empty()) continue;
    if (across <= posts.front()) {
      first += force * (1.0 + (posts.front() - across) / spans.front());
    } else if (across >= posts.back()) {
      last += force * (1.0 + (across - posts.back()) / spans.back());
    } else {
      const auto next = std::ranges::upper_bound(posts, across);
      const auto span = static_cast<std::size_t>(next - posts.begin()) - 1;
      between.points.push_back({span, across - posts[span], force});
    }
  }
  if (spans.empty()) return all;
  std::vector<double> taken = solve_beam(spans, between).reactions;
  taken.front() += first;
  taken.back() += last;
  return *std::ranges::max_element(taken);
}

}  // namespace

Links mid_support_links(Calculator& c, double reaction, const std::vector<LineLoad>& shared, double rise,
                        double going) {
  Links links;
  const std::vector<std::size_t> beams = parts_of(c.frame, PartKind::support_beam);
  if (beams.empty()) return links;
  const std::size_t beam = beams.front();
  const std::string where = c.frame.parts[beam].mark;
  const std::vector<std::size_t> stringers = parts_of(c.frame, PartKind::stringer);
  std::vector<std::size_t> posts;
  for (const std::size_t other : c.fastened.to(beam)) {
    if (c.frame.parts[other].kind == PartKind::support_post) posts.push_back(other);
  }

  // The stringer lies with its lower edge on the beam's ripped top, both across their grain.
  Bearing seat;
  seat.part = "support beam";
  seat.mark = where;
  seat.what = "bearing of a stringer on it";
  seat.faces = {{c.timber(stringers.front(), "stringer", "duration.live"), 90.0},
                {c.timber(beam, "support beam", "duration.live"), 90.0}};
  seat.length = in_inches(c.frame.parts[stringers.front()].solid.span.size());
  seat.width = in_inches(c.frame.parts[beam].section.thickness);
  seat.force = reaction;
  seat.force_words = "reaction of the middle support";
  links.push_back(c.add(check_bearing(seat)));

  // The seat slopes: the tie keeps the stringer from sliding down it.
  const double step = std::hypot(rise, going), along = reaction * rise / step;
  for (const std::size_t tie : c.fastened.to(beam)) {
    if (c.frame.parts[tie].kind != PartKind::connector) continue;
    const std::vector<std::size_t> held = c.fastened.to(tie);
    const auto stringer =
        std::ranges::find_if(held, [&](std::size_t part) { return c.frame.parts[part].kind == PartKind::stringer; });
    if (stringer == held.end()) continue;
    links.push_back(c.joint("support beam", where, "tie of a stringer, against sliding down its seat",
                            c.fastened.between(tie, *stringer), *stringer,
                            {{along * going / step, 0, -along * rise / step}}, "duration.live"));
    break;
  }

  HangerBoard board;
  board.board = c.timber(beam, "support beam", "duration.live");
  const std::vector<double> places = places_of(c.frame, posts);
  board.span = beam_span(c.frame, places, beam);
  board.down = reaction;
  const Links bending = c.add(check_hanger_board(board));
  links.insert(links.end(), bending.begin(), bending.end());
  if (posts.empty()) {
    links.push_back(c.unknown("support beam", where, "what the beam stands on", reaction,
                              "No post is drawn under it: it lies on its footing."));
    return links;
  }

  // The single load may stand over a post.
  const double share = std::max(heaviest_post(places, shared), reaction);
  const std::size_t post = posts.front();
  const std::string post_mark = c.frame.parts[post].mark;
  links.push_back(c.joint("support post", post_mark, "bolts of the beam to a post", c.fastened.between(beam, post),
                          beam, {{0, 0, -share}}, "duration.live"));
  SupportPost column;
  column.post = c.timber(post, "support post", "duration.live");
  column.length = in_inches(box(c.frame.parts[post].solid)[2].size());
  column.load = share;
  column.eccentricity =
      (in_inches(c.frame.parts[post].section.thickness) + in_inches(c.frame.parts[beam].section.thickness)) / 2.0;
  links.push_back(c.add(check_support_post(column)));
  for (const std::size_t footing : parts_of(c.frame, PartKind::footing)) {
    const auto pier = box(c.frame.parts[footing].solid), mine = box(c.frame.parts[post].solid);
    if (overlap(pier[0], mine[0]) <= Length() || overlap(pier[1], mine[1]) <= Length()) continue;
    const double length = in_inches(pier[0].size()), width = in_inches(pier[1].size());
    /// lb per cubic inch. SOURCE common practice, no source: concrete 145 lb per cubic foot
    constexpr double kConcrete = 145.0 / 1728.0;
    links.push_back(
        c.add(check_ground(c.frame.parts[footing].mark, share, kConcrete * length * width * in_inches(pier[2].size()),
                           length, width, c.loads.soil)));
    break;
  }
  return links;
}

}  // namespace pitchboard
