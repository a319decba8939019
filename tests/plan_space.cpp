// No two parts in one place, every fastener where it belongs, nothing floating: looked at point by point.

#include <gtest/gtest.h>

#include <optional>
#include <set>

#include "tests/plan_own_geometry.hpp"
#include "tests/plan_shards.hpp"

using namespace pitchboard;
using own::Solid;
using own::Spot;

namespace {

constexpr double kSkin = 1.0 / 64.0;  ///< what a plane takes off: less is touching
constexpr double kPace = 1.0 / 32.0;  ///< between two looks along a fastener
constexpr int kLooks = 48;            ///< random points in the room that two boxes share

class Space {
 public:
  Space(const Frame& frame, std::uint32_t seed) : frame_(frame), random_(seed) {
    for (const Part& part : frame.parts) solids_.emplace_back(part.solid);
  }

  /// Everything wrong, in words.
  std::vector<std::string> wrongs() {
    overlaps();
    for (const Fastener& f : frame_.fasteners) {
      runs_through_its_parts(f);
      head_and_nut_are_free(f);
    }
    fasteners_keep_apart();
    all_is_held();
    return wrongs_;
  }

 private:
  double between(double a, double b) { return a + (b - a) * static_cast<double>(random_()) / 4294967296.0; }
  static bool fixed(const Part& p) { return p.kind == PartKind::existing; }

  /// The foot of a rail post in concrete, and nothing else, may be where its own footing and the landing's layers are:
  /// these are cut or poured round it.
  [[nodiscard]] bool let_in(std::size_t i, std::size_t j) const {
    const Part &post = frame_.parts[i], &ground = frame_.parts[j];
    if (post.kind != PartKind::post) return false;
    for (std::size_t k = 0; k < solids_.size(); ++k) {
      if (frame_.parts[k].kind != PartKind::footing || frame_.parts[k].mark != post.mark + "F") continue;
      const Solid& p = solids_[i];
      for (const double x : {p.low[0], p.high[0]}) {
        for (const double y : {p.low[1], p.high[1]}) {
          if (!solids_[k].has({x, y, p.low[2] + kSkin})) return false;
        }
      }
      return k == j || ground.kind == PartKind::pad_layer;
    }
    return false;
  }

  void overlaps() {
    for (std::size_t i = 0; i < solids_.size(); ++i) {
      for (std::size_t j = i + 1; j < solids_.size(); ++j) {
        if (fixed(frame_.parts[i]) && fixed(frame_.parts[j])) continue;
        if (let_in(i, j) || let_in(j, i)) continue;
        const Solid &p = solids_[i], &q = solids_[j];
        std::array<double, 3> low{}, high{};
        bool apart = false;
        for (std::size_t k = 0; k < 3; ++k) {
          low[k] = std::max(p.low[k], q.low[k]) + kSkin;
          high[k] = std::min(p.high[k], q.high[k]) - kSkin;
          apart = apart || high[k] <= low[k];
        }
        if (apart) continue;
        for (int look = 0; look < kLooks; ++look) {
          const Spot at{between(low[0], high[0]), between(low[1], high[1]), between(low[2], high[2])};
          if (!p.has(at) || !q.has(at) || p.depth(at) < kSkin || q.depth(at) < kSkin) continue;
          wrongs_.push_back(frame_.parts[i].mark + " and " + frame_.parts[j].mark + " are in one place");
          break;
        }
      }
    }
  }

  static Spot at(const Fastener& f, double along) {
    return own::spot(f.head) + along * Spot{f.direction.x, f.direction.y, f.direction.z};
  }

  void runs_through_its_parts(const Fastener& f) {
    std::vector<int> looks(solids_.size(), 0);
    const double length = f.length.raw();
    const std::set<std::size_t> joined(f.joins.begin(), f.joins.end());
    std::vector<std::size_t> near;
    const Spot head = at(f, 0), tip = at(f, length);
    for (std::size_t p = 0; p < solids_.size(); ++p) {
      const Solid& s = solids_[p];
      const bool meets = std::max(head.x, tip.x) > s.low[0] && std::min(head.x, tip.x) < s.high[0] + 1e-9 &&
                         std::max(head.y, tip.y) > s.low[1] - 1e-9 && std::min(head.y, tip.y) < s.high[1] + 1e-9 &&
                         std::max(head.z, tip.z) > s.low[2] - 1e-9 && std::min(head.z, tip.z) < s.high[2] + 1e-9;
      if (meets || joined.contains(p)) near.push_back(p);
    }
    double wood_end = 0;
    for (double along = kPace / 2; along < length; along += kPace) {
      for (const std::size_t p : near) {
        if (!solids_[p].has(at(f, along))) continue;
        ++looks[p];
        if (joined.contains(p)) wood_end = along;
      }
    }
    for (const std::size_t p : near) {
      const Part& part = frame_.parts[p];
      if (!joined.contains(p)) {
        if (looks[p] * kPace > kSkin + kPace) say(f, "runs through " + part.mark);
        continue;
      }
      // Connectors are metal of about a sixteenth.
      const double least = part.kind == PartKind::connector ? 0.03 : 0.5;
      if (looks[p] * kPace < least) say(f, "hardly lies in " + part.mark);
      if (is_cut_from_board(part.kind) && !part.species.empty()) keeps_from_edges(f, p);
    }
    if (f.joins.empty()) return say(f, "joins nothing");
    if (!solids_[f.joins.front()].has(at(f, kPace))) say(f, "does not start in " + frame_.parts[f.joins.front()].mark);
    const PartKind last = frame_.parts[f.joins.back()].kind;
    const bool bolt = f.nut_height > Length();
    const bool may_come_out = bolt || last == PartKind::pad_layer || last == PartKind::existing;
    if (!may_come_out && wood_end < length - kSkin - kPace) say(f, "comes out of the wood");
    if (bolt && length - wood_end < f.nut_height.raw() * 0.5) say(f, "has no thread left for its nut");
  }

  void keeps_from_edges(const Fastener& f, std::size_t p) {
    const Solid& s = solids_[p];
    const double diameter = f.diameter.raw(), need = diameter * (diameter >= 0.25 ? 1.5 : 2.5) - 1e-4;
    const std::array<double, 3> way{f.direction.x, f.direction.y, f.direction.z};
    const bool through_faces = std::abs(way[static_cast<std::size_t>(s.normal)]) > 0.99;
    for (double along = kPace / 2; along < f.length.raw(); along += kPace) {
      const Spot here = at(f, along);
      if (!s.has(here)) continue;
      const double edge =
          through_faces ? s.to_outline(s.flat(here)) : std::min(s.across(here) - s.from, s.to - s.across(here));
      if (edge < need) return say(f, "is " + std::to_string(edge) + " in from an edge of " + frame_.parts[p].mark);
    }
  }

  void head_and_nut_are_free(const Fastener& f) {
    const std::array<double, 3> way{std::abs(f.direction.x), std::abs(f.direction.y), std::abs(f.direction.z)};
    const bool along_x = way[0] >= way[1] && way[0] >= way[2], along_y = !along_x && way[1] >= way[2];
    const Spot u = along_x ? Spot{0, 1, 0} : Spot{1, 0, 0}, v = along_x || along_y ? Spot{0, 0, 1} : Spot{0, 1, 0};
    const auto free = [&](double from, double height, double radius, const char* what) {
      for (const double up : {0.3, 0.7}) {
        for (int turn = 0; turn < 8; ++turn) {
          const double angle = turn * 3.14159265358979 / 4, r = radius * 0.9;
          const Spot here = at(f, from + up * height) + (r * std::cos(angle)) * u + (r * std::sin(angle)) * v;
          for (std::size_t p = 0; p < solids_.size(); ++p) {
            if (!solids_[p].has(here) || solids_[p].depth(here) < kSkin) continue;
            return say(f, std::string(what) + " stands in " + frame_.parts[p].mark);
          }
        }
      }
    };
    if (f.head_height > Length()) free(-f.head_height.raw(), f.head_height.raw(), f.head_radius.raw(), "head");
    if (f.nut_height > Length() && !f.joins.empty()) {
      double far = 0;
      for (double along = 0; along < f.length.raw(); along += kPace / 4) {
        if (solids_[f.joins.back()].has(at(f, along))) far = along;
      }
      free(far + kPace, f.nut_height.raw(), f.nut_radius.raw(), "nut");
    }
  }

  void fasteners_keep_apart() {
    const std::vector<Fastener>& all = frame_.fasteners;
    for (std::size_t i = 0; i < all.size(); ++i) {
      for (std::size_t j = i + 1; j < all.size(); ++j) {
        const Spot a = at(all[i], 0), b = at(all[i], all[i].length.raw()), c = at(all[j], 0),
                   d = at(all[j], all[j].length.raw());
        const double need = (all[i].diameter + all[j].diameter).raw() / 2 + 1.0 / 16.0;
        const double middles = own::length(0.5 * (a + b) - 0.5 * (c + d));
        if (middles > (all[i].length + all[j].length).raw() / 2 + need) continue;
        if (own::between_segments(a, b, c, d) < need - 1e-4) say(all[i], "meets " + all[j].mark);
      }
    }
  }

  /// Walks from what stands on its own through every fastener.
  void all_is_held() {
    std::vector<std::size_t> reached;
    std::vector<bool> held(frame_.parts.size());
    const auto reach = [&](std::size_t p) {
      if (!held[p]) reached.push_back(p);
      held[p] = true;
    };
    for (std::size_t p = 0; p < frame_.parts.size(); ++p) {
      const PartKind kind = frame_.parts[p].kind;
      if (fixed(frame_.parts[p]) || kind == PartKind::pad_layer || kind == PartKind::footing) reach(p);
    }
    while (!reached.empty()) {
      const std::size_t here = reached.back();
      reached.pop_back();
      for (const Fastener& f : frame_.fasteners) {
        if (std::ranges::find(f.joins, here) == f.joins.end()) continue;
        for (const std::size_t p : f.joins) reach(p);
      }
    }
    for (std::size_t p = 0; p < held.size(); ++p) {
      if (!held[p]) wrongs_.push_back("nothing holds " + frame_.parts[p].mark);
    }
  }

  void say(const Fastener& f, const std::string& what) {
    wrongs_.push_back(f.mark + " (" + f.item + ", " + std::string(f.reason) + ") " + what);
  }

  const Frame& frame_;
  std::mt19937 random_;
  std::vector<Solid> solids_;
  std::vector<std::string> wrongs_;
};

std::string first_of(const std::vector<std::string>& wrongs) {
  return wrongs.empty() ? "" : wrongs.front() + " and " + std::to_string(wrongs.size() - 1) + " more";
}

/// A frame to break.
Frame good_frame() {
  Job job;
  job.ground.lines = {{Line::middle, {{inches(12), inches(34)}, {inches(80), inches(35)}}}};
  return make_plan(job, Depth::quick)->frame;
}
Part& first(Frame& frame, PartKind kind) { return *std::ranges::find(frame.parts, kind, &Part::kind); }

}  // namespace

class SpaceOf : public Shard {};
INSTANTIATE_TEST_SUITE_P(RandomJobs, SpaceOf, ::testing::Range(0u, kShards));

TEST_P(SpaceOf, EveryStairHasOnePartInOnePlaceAndFastenersWhereTheyBelong) {
  int supported = 0;
  plan_shard(GetParam(), [&](std::uint32_t seed, const Plan& plan) {
    supported += std::ranges::find(plan.frame.parts, PartKind::support_beam, &Part::kind) != plan.frame.parts.end();
    std::string clashes;
    for (const Clash& c : plan.frame.clashes)
      clashes += c.kind + ": " + c.first + " " + c.second + ", " + c.note + "\n";
    EXPECT_EQ(clashes, "");
    EXPECT_EQ(first_of(Space(plan.frame, seed).wrongs()), "");
  });
  EXPECT_GT(supported, static_cast<int>(kJobsInShard / 50)) << "long flights with supports are among them";
  RecordProperty("supported", supported);
}

TEST(SpaceItself, FindsNothingOnAGoodStair) { EXPECT_EQ(first_of(Space(good_frame(), 1).wrongs()), ""); }

TEST(SpaceItself, FindsATreadPushedIntoItsStringers) {
  Frame frame = good_frame();
  Interval& span = first(frame, PartKind::tread).solid.span;
  span = {span.from - inches(0.25), span.to - inches(0.25)};
  EXPECT_NE(first_of(Space(frame, 1).wrongs()), "");
  EXPECT_FALSE(find_clashes(frame).empty());
}

TEST(SpaceItself, FindsABoardThatNothingHolds) {
  Frame frame = good_frame();
  const std::size_t tread =
      static_cast<std::size_t>(std::ranges::find(frame.parts, PartKind::tread, &Part::kind) - frame.parts.begin());
  std::erase_if(frame.fasteners, [&](const Fastener& f) { return std::ranges::find(f.joins, tread) != f.joins.end(); });
  EXPECT_EQ(Space(frame, 1).wrongs(), std::vector<std::string>{"nothing holds " + frame.parts[tread].mark});
  EXPECT_FALSE(find_clashes(frame).empty());
}

TEST(SpaceItself, FindsAFastenerThatMissesItsPart) {
  const Frame good = good_frame();
  for (std::size_t i = 0; i < good.fasteners.size(); i += 7) {
    Frame frame = good;
    frame.fasteners[i].head = moved(frame.fasteners[i].head, frame.fasteners[i].direction, inches(-2.0));
    EXPECT_NE(first_of(Space(frame, 1).wrongs()), "") << frame.fasteners[i].mark;
    EXPECT_FALSE(find_clashes(frame).empty()) << frame.fasteners[i].mark;
  }
}
