#pragma once
// The calculation of one frame while it grows: loads, checks and paths, and the small makers that every part of it
// uses. Internal to strength.

#include <string>
#include <string_view>
#include <vector>

#include "engine/strength/frame_joint.hpp"
#include "engine/strength/frame_reading.hpp"
#include "engine/strength/limits.hpp"
#include "engine/strength/members.hpp"
#include "engine/strength/strength.hpp"

namespace pitchboard {

struct GuideRow {
  std::string_view key, words, compare;
  double limit = 0;  ///< inches
  std::string_view source;
  bool from_memory = false;
};

constexpr double kInchesPerFoot = 12.0;

/// Indices in Strength::checks, from the load to the ground.
using Links = std::vector<std::size_t>;

struct Calculator {
  const Job& job;
  const Flight& flight;
  const Frame& frame;
  Depth depth;
  LoadSet loads;
  Fastened fastened;
  JointedFrame jointed;
  // Of a counted frame, whose posts are of one wood and bolted alike:
  HoldDownNeed need;
  std::optional<double> bolt_carries;  ///< the upper one of a post, pulled, lb
  std::vector<GuardPost> asked;        ///< posts that were, the worst ones
  Strength out;

  Calculator(const Job& job_, const Flight& flight_, const Frame& frame_, Depth depth_);
  [[nodiscard]] bool one_fails() const;
  /// RETURNS whether a post of a counted frame is no worse than one that was asked; if not it is asked from now on.
  [[nodiscard]] bool no_worse(const GuardPost& post);
  /// False where nothing but the checks and what they come to is asked for: no figures, notes or paths.
  [[nodiscard]] bool written() const { return depth == Depth::quick || depth == Depth::full; }

  /// The part as a member; `duration`: key in data/strength/limits.
  [[nodiscard]] Timber timber(std::size_t part, std::string member, std::string_view duration);
  std::size_t add(Check check);
  /// Puts figures before those of a check that is added already. REQUIRES they are written.
  void lead_in(std::size_t check, std::vector<Figure> figures);
  Links add(std::vector<Check> checks);
  /// Adds a joint: the worst of the forces, each on `loaded`, shared by all the fasteners.
  std::size_t joint(std::string member, std::string where, std::string what, const std::vector<std::size_t>& fasteners,
                    std::size_t loaded, const std::vector<ForceVector>& forces, std::string_view duration);
  /// Adds a link that has no published value here.
  std::size_t unknown(std::string member, std::string where, std::string what, double demand, std::string note);
  /// Adds a link whose capacity comes from its maker's report, if the job has it.
  std::size_t reported(std::string member, std::string where, std::string what, double demand,
                       std::optional<double> value, const std::string& input);
  /// Adds the way over the links and then those `below`. `from`: makes the words.
  void path(const auto& from, const Links& links, const Links& below) {
    if (written()) add_path(from(), links, below);
  }

 private:
  void add_path(std::string from, const Links& links, const Links& below);
};

[[nodiscard]] StringerBeam beam_of(Calculator& calculator, const StringerReading& reading);
/// From any tread to the ground. RETURNS the links from the stringers on, for what else leans on them.
Links walk_paths(Calculator& calculator);
/// From any point of a rail to the stringer or the ground.
void guard_paths(Calculator& calculator, const Links& below);
/// The treads alone, on a counted frame: the narrowest boards, which carry the least, and what those bear on.
void tread_paths(Calculator& calculator);
/// The posts alone, as far as the first that fails.
void post_paths(Calculator& calculator);
/// What a stringer lays on a line of support with people everywhere, lb, and where across the stair, inches.
struct LineLoad {
  double across = 0, force = 0;
};
/// The line of support under long stringers: beam, posts, piers. `reaction`: the most that one stringer brings;
/// `shared`: what each brings at once.
Links mid_support_links(Calculator& calculator, double reaction, const std::vector<LineLoad>& shared, double rise,
                        double going);
/// The worst cut stringer as a plate, beside the throat beam.
void check_plate(Calculator& calculator);
/// Other ways to hang a stringer's head, and the flight that only leans: beside the checks, for whoever builds
/// otherwise.
void other_ways(Calculator& calculator, std::size_t stringer, double reaction, const Thrust& thrust);

}  // namespace pitchboard
