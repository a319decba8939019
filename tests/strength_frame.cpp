// Whole frames: what is carried arrives at the ground, every link says where its figures come from, and more load never
// makes a link better.

#include <cmath>
#include <tuple>

#include "engine/strength/frame_reading.hpp"
#include "engine/strength/strength.hpp"
#include "tests/frame_fixture.hpp"

using namespace pitchboard;

namespace {

Strength strength_of(const Standing& stair, Depth depth = Depth::quick) {
  return check_strength(stair.job, stair.flight, stair.frame, depth);
}

const Check* find(const Strength& strength, const std::string& member, const std::string& what) {
  const auto found = std::ranges::find_if(strength.checks, [&](const Check& check) {
    return check.member == member && check.what.find(what) != std::string::npos;
  });
  return found == strength.checks.end() ? nullptr : &*found;
}

std::vector<Job> every_job() {
  std::vector<Job> jobs = good_jobs();
  Job wide = steps(7, 7.0, 10.5);
  wide.stair.width = inches(60);
  wide.rails.left = SideRail::none;
  jobs.push_back(wide);
  return jobs;
}

}  // namespace

TEST(FrameStrength, EveryLoadHasAWayToTheGround) {
  for (const Job& job : every_job()) {
    const Standing stair = stand(job);
    const Strength strength = strength_of(stair);
    ASSERT_FALSE(strength.paths.empty());
    const auto treads =
        std::ranges::count_if(strength.paths, [](const LoadPath& p) { return p.from.find("people") == 0; });
    EXPECT_GE(treads, 1);
    for (const PartKind kind : {PartKind::post, PartKind::top_rail}) {
      for (const Part& part : stair.all(kind)) {
        const bool has_way =
            std::ranges::any_of(strength.paths, [&](const LoadPath& p) { return p.from.ends_with(" " + part.mark); });
        EXPECT_TRUE(has_way) << part.mark;
      }
    }
    for (const LoadPath& path : strength.paths) {
      ASSERT_FALSE(path.links.empty()) << path.from;
      const bool to_ground = std::ranges::any_of(path.links, [&](std::size_t link) {
        return strength.checks[link].where == "landing" ||
               strength.checks[link].what.find("concrete") != std::string::npos ||
               strength.checks[link].member == "post";
      });
      EXPECT_TRUE(to_ground) << path.from;
    }
  }
}

TEST(FrameStrength, EveryCheckTellsItsClauseAndWhereItsCapacityComesFrom) {
  for (const Job& job : every_job()) {
    for (const Check& check : strength_of(stand(job)).checks) {
      SCOPED_TRACE(check.member + ": " + check.what);
      EXPECT_FALSE(check.member.empty());
      EXPECT_FALSE(check.where.empty());
      EXPECT_FALSE(check.what.empty());
      EXPECT_FALSE(check.clause.empty());
      if (check.verdict == Verdict::not_checked) {
        EXPECT_FALSE(check.note.empty()) << "says why, and what to enter";
        continue;
      }
      EXPECT_TRUE(std::isfinite(check.ratio));
      EXPECT_GT(check.demand, 0);
      ASSERT_FALSE(check.figures.empty());
      for (const Figure& figure : check.figures) {
        EXPECT_FALSE(figure.symbol.empty());
        EXPECT_FALSE(figure.words.empty()) << figure.symbol.view();
        EXPECT_TRUE(std::isfinite(figure.value)) << figure.symbol.view();
        EXPECT_FALSE(figure.from.empty() && figure.source.empty()) << figure.symbol.view() << " comes from nowhere";
      }
      EXPECT_EQ(check.verdict == Verdict::pass, check.capacity > 0 && check.ratio <= 1.0);
    }
  }
}

TEST(FrameStrength, TheWeakestLinkIsTheOneWithTheHighestRatio) {
  for (const Job& job : every_job()) {
    const Strength strength = strength_of(stand(job));
    for (const LoadPath& path : strength.paths) {
      int not_checked = 0;
      for (const std::size_t link : path.links) {
        const Check& check = strength.checks[link];
        if (check.verdict == Verdict::not_checked) {
          ++not_checked;
        } else if (check.capacity > 0) {
          ASSERT_TRUE(path.weakest);
          const Check& weakest = strength.checks[*path.weakest];
          EXPECT_TRUE(weakest.capacity <= 0 || weakest.ratio >= check.ratio);
        }
      }
      EXPECT_EQ(not_checked, path.not_checked);
    }
  }
}

TEST(FrameStrength, VerdictsAloneAreThoseOfTheWholeCalculation) {
  for (const Job& job : every_job()) {
    const Standing stair = stand(job);
    const std::vector<Check> whole = strength_of(stair).checks, alone = strength_of(stair, Depth::verdicts).checks;
    ASSERT_EQ(alone.size(), whole.size());
    for (std::size_t i = 0; i < whole.size(); ++i) {
      SCOPED_TRACE(whole[i].where + ", " + whole[i].what);
      EXPECT_EQ(std::tie(alone[i].member, alone[i].where, alone[i].what, alone[i].verdict, alone[i].demand,
                         alone[i].capacity, alone[i].ratio),
                std::tie(whole[i].member, whole[i].where, whole[i].what, whole[i].verdict, whole[i].demand,
                         whole[i].capacity, whole[i].ratio));
      EXPECT_TRUE(alone[i].figures.empty());
    }
  }
}

TEST(FrameStrength, OfASkeletonTheVerdictsAreThoseOfTheWholeCalculation) {
  for (const Job& job : every_job()) {
    const Standing stair = stand(job);
    const Frame skeleton = skeleton_of(job, Site(job), stair.flight, true).frame;
    const std::vector<Check> whole = strength_of(stair).checks,
                             early = check_skeleton(job, stair.flight, skeleton, true);
    EXPECT_GE(early.size(), 2u);
    for (const Check& check : early) {
      SCOPED_TRACE(check.where + ", " + check.what);
      EXPECT_TRUE(std::ranges::any_of(whole, [&](const Check& other) {
        return std::tie(other.member, other.where, other.what, other.verdict, other.demand, other.capacity) ==
               std::tie(check.member, check.where, check.what, check.verdict, check.demand, check.capacity);
      }));
    }
  }
}

TEST(FrameStrength, OfACountedFrameTheVerdictsAreThoseOfTheWholeCalculation) {
  std::size_t boards = 0, posts = 0, hold_downs = 0, long_ties = 0;
  for (Job job : every_job()) {
    for (const auto& [wanted, foot] : {std::pair(false, FootPosts::bolted), std::pair(true, FootPosts::bolted),
                                       std::pair(true, FootPosts::footing)}) {
      job.rails.hold_downs = wanted;
      job.rails.foot_posts = foot;
      const Standing stair = stand(job);
      const Site site(job);
      Skeleton counted = counted_stringers(job, site, stair.flight);
      count_posts(counted);
      const auto [of_posts, need] = check_counted_posts(job, stair.flight, counted.frame);
      count_treads(counted, true);
      std::vector<Check> early = check_counted_treads(job, stair.flight, counted.frame);
      early.insert(early.end(), of_posts.begin(), of_posts.end());
      const std::vector<Check> whole = strength_of(stair).checks;
      if (need) hold_downs += need->posts.size();
      // An end of a block that carries more than a short angle does has a long one, or fails.
      const std::optional<double> short_tie = short_tie_capacity(job, stair.flight);
      if (wanted && need && short_tie &&
          need->moment > *short_tie * 1.001 * in_inches(counted.frame.stringer_spacing)) {
        ++long_ties;
        const auto is_long = [](const Part& p) { return p.section.nominal == "angle-4-1/2"; };
        EXPECT_TRUE(std::ranges::count_if(stair.frame.parts, is_long) >= 2 ||
                    std::ranges::any_of(whole, [](const Check& check) {
                      return check.member == "post" && check.verdict == Verdict::fail;
                    }));
      }
      for (const Check& check : early) {
        SCOPED_TRACE(check.where + ", " + check.what);
        boards += check.member == "tread";
        posts += check.member == "post";
        EXPECT_TRUE(std::ranges::any_of(whole, [&](const Check& other) {
          return std::tie(other.member, other.where, other.what, other.verdict, other.demand, other.capacity) ==
                 std::tie(check.member, check.where, check.what, check.verdict, check.demand, check.capacity);
        }));
      }
    }
  }
  EXPECT_GT(boards, 20u);
  EXPECT_GT(posts, 20u);
  EXPECT_GT(hold_downs, 2u);
  EXPECT_GT(long_ties, 2u);
}

TEST(FrameStrength, StringersShareTheWidthOfTheStair) {
  for (const Job& job : every_job()) {
    const Standing stair = stand(job);
    double shares = 0;
    for (const StringerReading& stringer : stringers_of(stair.frame)) shares += stringer.tributary;
    EXPECT_NEAR(shares, in_inches(job.stair.width), 1e-6);
  }
}

TEST(FrameStrength, SpansReachFromTheHeadToTheFoot) {
  for (const Job& job : every_job()) {
    const Standing stair = stand(job);
    for (const StringerReading& stringer : stringers_of(stair.frame)) {
      double level = 0;
      for (const double span : stringer.spans) {
        EXPECT_GT(span, 0);
        level += span;
      }
      EXPECT_GE(stringer.head_x + level, stringer.foot_from - 1e-6);
      EXPECT_LE(stringer.head_x + level, stringer.foot_to + 1e-6);
      EXPECT_LE(stringer.foot_to, in_inches(extent_a(stair.frame.parts[stringer.part].solid.outline).to) + 1e-6);
    }
  }
}

TEST(FrameStrength, MoreLoadNeverMakesALinkBetter) {
  for (const Job& job : every_job()) {
    const Standing stair = stand(job);
    Standing heavier = stair;
    heavier.job.loads.live = 60;
    heavier.job.loads.tread = 450;
    heavier.job.loads.rail = 300;
    heavier.job.loads.infill = 75;
    const Strength light = strength_of(stair), heavy = strength_of(heavier);
    ASSERT_EQ(light.checks.size(), heavy.checks.size());
    for (std::size_t i = 0; i < light.checks.size(); ++i) {
      EXPECT_EQ(light.checks[i].member + light.checks[i].where, heavy.checks[i].member + heavy.checks[i].where);
      EXPECT_GE(heavy.checks[i].ratio, light.checks[i].ratio - 1e-9) << light.checks[i].what;
    }
  }
}

TEST(FrameStrength, AFourthStringerTakesLoadOffTheOthers) {
  Job three = steps(7, 7.25), four = three;
  three.stringers.count = 3;
  four.stringers.count = 4;
  const Strength wide = strength_of(stand(three)), narrow = strength_of(stand(four));
  const Check* before = find(wide, "stringer", "bending");
  const Check* after = find(narrow, "stringer", "bending");
  ASSERT_TRUE(before && after);
  EXPECT_LE(after->ratio, before->ratio);
  EXPECT_LT(find(narrow, "tread", "bending")->ratio, find(wide, "tread", "bending")->ratio);
}

// SOURCE statics: however many stringers share the people, two posts under the beam take half of them each.
TEST(FrameStrength, PostsUnderTheBeamShareWhatAllStringersBring) {
  Job job = steps(9, 7.25);
  job.stringers.mid_supports = 1;
  job.rails.left = job.rails.right = SideRail::none;
  job.loads.tread = 1;  // people everywhere alone
  std::vector<double> taken;
  for (const int count : {3, 4, 5}) {
    job.stringers.count = count;
    const Standing stair = stand(job);
    ASSERT_EQ(stair.all(PartKind::support_post).size(), 2u);
    const Strength strength = strength_of(stair);
    const Check* bolts = find(strength, "support post", "bolts of the beam");
    ASSERT_TRUE(bolts);
    taken.push_back(bolts->demand);
    // One post of two: at least a half of the two spans' live load by width, at most as a beam over three supports
    // takes it all in the middle (5/4), with 15 lb/ft2 of dead load at most beside 40.
    const StringerReading reading = stringers_of(stair.frame).front();
    const double area = in_inches(job.stair.width) * (reading.spans[0] + reading.spans[1]) / 2.0 / 144.0;
    EXPECT_GT(bolts->demand, 40.0 * area / 2.0);
    EXPECT_LT(bolts->demand, 1.25 * 55.0 * area / 2.0);
  }
  EXPECT_NEAR(taken[1], taken[0], 0.05 * taken[0]);
  EXPECT_NEAR(taken[2], taken[0], 0.05 * taken[0]);
}

// SOURCE statics: the upper bolt's pull of a post that turns about its lower bolt is P (h + d) / d.
TEST(FrameStrength, AGuardPostsUpperBoltIsPulledAsTheLeverSays) {
  const Standing stair = stand(steps(7, 7.25));
  const Strength strength = strength_of(stair);
  const Part post = stair.part("PL1");
  std::vector<double> heights;
  for (const Fastener& fastener : stair.frame.fasteners) {
    if (stair.frame.parts[fastener.joins.front()].mark == "PL1" && fastener.item.starts_with("bolt"))
      heights.push_back(in_inches(fastener.head.z));
  }
  ASSERT_EQ(heights.size(), 2u);
  const double upper = std::max(heights[0], heights[1]), apart = std::abs(heights[0] - heights[1]);
  // The cap, 1 1/2 in thick and laid on the rake, over the post's middle.
  const auto extents = box(post.solid);
  const double slope = 7.25 / 10.25, half = in_inches(extents[0].size()) / 2;
  const double top = in_inches(extents[2].to) - half * slope + 1.5 * std::hypot(1.0, slope);
  const auto pulled = std::ranges::find_if(
      strength.checks, [](const Check& check) { return check.where == "PL1" && check.what == "upper bolt, pulled"; });
  ASSERT_NE(pulled, strength.checks.end());
  EXPECT_NEAR(pulled->demand, 200.0 * (top - upper + apart) / apart, 1.0);
}

TEST(FrameStrength, WhatHasNoPublishedValueSaysSoAndTakesTheMakersOne) {
  Standing stair = stand(steps(7, 7.25));
  const Check* open = nullptr;
  const Strength before = strength_of(stair);
  open = find(before, "head", "connector itself");
  ASSERT_TRUE(open);
  EXPECT_EQ(open->verdict, Verdict::not_checked);
  EXPECT_NE(open->note.find("stringers.connector_value"), std::string::npos);
  stair.job.stringers.connector_value = 10000;
  const Strength after = strength_of(stair);
  EXPECT_EQ(find(after, "head", "connector itself")->verdict, Verdict::pass);
  stair.job.stringers.connector_value = 1;
  const Strength weak = strength_of(stair);
  EXPECT_EQ(find(weak, "head", "connector itself")->verdict, Verdict::fail);
}

TEST(FrameStrength, ASpeciesWithoutValuesIsNotCheckedAndOwnValuesAreTaken) {
  Job job = steps(5, 7.25);
  job.wood.species = "european-redwood";
  job.wood.grade = "c24";
  const Standing without = stand(job);
  const Strength bare = strength_of(without);
  const Check* bending = find(bare, "stringer", "");
  ASSERT_TRUE(bending);
  EXPECT_EQ(bending->verdict, Verdict::not_checked);
  EXPECT_NE(bending->note.find("own_values"), std::string::npos);
  job.wood.own_values = {{.species = "european-redwood",
                          .grade = "c24",
                          .gravity = 0.42,
                          .bending = 1000,
                          .tension = 500,
                          .shear = 150,
                          .compression_across = 400,
                          .compression = 1000,
                          .stiffness = 1.4e6,
                          .least_stiffness = 5.1e5,
                          .size_factor = false,
                          .source = "invented for this test"}};
  const Strength known = strength_of(stand(job));
  EXPECT_NE(find(known, "stringer", "")->verdict, Verdict::not_checked);
}

TEST(FrameStrength, MetricAndImperialJobsCarryAlike) {
  Job imperial = steps(6, 7.25), metric = imperial;
  metric.about.units = UnitSystem::metric;
  const Strength one = strength_of(stand(imperial)), other = strength_of(stand(metric));
  ASSERT_EQ(one.checks.size(), other.checks.size());
  for (std::size_t i = 0; i < one.checks.size(); ++i) EXPECT_EQ(one.checks[i].ratio, other.checks[i].ratio);
}

namespace {

/// The plate's figures within the bands of the throat beam's that finite elements of such stringers have shown.
void expect_beside_the_beam(const Strength& strength, const Standing& stair) {
  ASSERT_TRUE(strength.sawtooth);
  ASSERT_TRUE(strength.throat_beam);
  const SawtoothResult &plate = *strength.sawtooth, &beam = *strength.throat_beam;
  ASSERT_EQ(plate.bays.size(), beam.bays.size());
  ASSERT_EQ(plate.props.size(), beam.props.size());
  double carried = 0;
  for (const StringerReading& reading : stringers_of(stair.frame)) {
    double level = 0;
    for (const double span : reading.spans) level += span;
    carried = std::max(carried, 50.0 * reading.tributary / 12.0 * level / 12.0);
  }
  EXPECT_NEAR(plate.reactions_down, carried, 0.25 * carried);
  EXPECT_NEAR(beam.reactions_down, carried, 1e-6 * carried);
  for (std::size_t i = 0; i < plate.bays.size(); ++i) {
    EXPECT_GT(plate.bays[i].mid_normal, 0.45 * beam.bays[i].mid_normal);
    EXPECT_LT(plate.bays[i].mid_normal, 1.0 * beam.bays[i].mid_normal);
    EXPECT_GT(plate.bays[i].bottom_stress, 0.6 * beam.bays[i].bottom_stress);
    EXPECT_LT(plate.bays[i].bottom_stress, 1.0 * beam.bays[i].bottom_stress);
  }
  double hogging = 0, sagging = 0;
  for (const SawtoothProp& prop : beam.props) hogging = std::max(hogging, prop.throat_stress);
  for (const SawtoothBay& bay : beam.bays) sagging = std::max(sagging, bay.bottom_stress);
  for (std::size_t i = 0; i < plate.props.size(); ++i) {
    EXPECT_NEAR(plate.props[i].reaction, beam.props[i].reaction, 0.1 * beam.props[i].reaction);
    EXPECT_GT(plate.props[i].throat_stress, 0.5 * beam.props[i].throat_stress);
    EXPECT_LT(plate.props[i].throat_stress, 1.0 * beam.props[i].throat_stress);
  }
  // The beam is the one that is checked.
  double checked = 0;
  for (const Check& check : strength.checks) {
    if (check.member == "stringer" && check.what.starts_with("bending under") && check.what.ends_with("lb/ft"))
      checked = std::max(checked, check.demand);
  }
  EXPECT_NEAR(std::max(hogging, sagging), checked, 1e-3 * checked);
}

}  // namespace

TEST(FrameStrength, ThePlateBendsAboutAsFarAsTheThroatBeamSays) {
  for (const int props : {0, 1, 2}) {
    SCOPED_TRACE(props);
    Job job = steps(14, 7.25, 10.0);
    job.stringers.mid_supports = props;
    const Standing stair = stand(job);
    const Strength strength = strength_of(stair, Depth::full);
    ASSERT_EQ(strength.sawtooth ? strength.sawtooth->props.size() : 99u, static_cast<std::size_t>(props));
    expect_beside_the_beam(strength, stair);
  }
}
