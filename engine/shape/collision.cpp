#include "engine/shape/collision.hpp"

#include <fmt/format.h>

#include <cmath>
#include <functional>

#include "engine/base/tape.hpp"

namespace pitchboard {
namespace {

/// No limit is looser than this. UNITS inches or degrees, beyond any house.
constexpr double kFree = 1024.0;
constexpr double kDegreeStep = 0.25;

/// A limit that can give way. UNITS inches; degrees for a pitch.
struct Limit {
  std::string place;
  std::function<void(Job&, ShapeLimits&, double by)> loosen;
  std::function<std::string(double by)> words;
  double step = 0;  ///< fineness of `by`; 0: there is no little of it, it holds or not
};

class Limits {
 public:
  Limits(const Job& job, const ShapeLimits& limits) : job_(job), limits_(limits) {
    const UnitSystem units = job.about.units;
    step_ = in_inches(units == UnitSystem::metric ? millimetres(1.0) : kSixteenth);
    add_of_the_job();
    add_of_the_pack();
  }
  [[nodiscard]] const std::vector<Limit>& all() const { return all_; }

 private:
  void add_length(std::string place, const std::string& form, Length value, bool at_most,
                  const std::function<void(Job&, ShapeLimits&, Length)>& set) {
    const auto loose = [value, at_most](double by) { return value + inches(at_most ? by : -by); };
    all_.push_back({std::move(place), [=](Job& job, ShapeLimits& limits, double by) { set(job, limits, loose(by)); },
                    [=, units = job_.about.units](double by) {
                      return fmt::format(fmt::runtime(form), tape_plain(loose(by), units));
                    },
                    step_});
  }
  void add_whole(std::string place, const std::string& words, const std::string& without,
                 const std::function<void(Job&, ShapeLimits&)>& drop) {
    all_.push_back({std::move(place), [=](Job& job, ShapeLimits& limits, double) { drop(job, limits); },
                    [=](double by) { return by > 0 ? without : words; }, 0.0});
  }

  void add_of_the_job() {
    add_length("pad.raise_at_most", "a landing raised at most {}", job_.pad.raise_at_most, true,
               [](Job& job, ShapeLimits&, Length to) { job.pad.raise_at_most = to; });
    add_length("pad.dig_at_most", "a landing dug down at most {}", job_.pad.dig_at_most, true,
               [](Job& job, ShapeLimits&, Length to) { job.pad.dig_at_most = to; });
    if (job_.room.run_at_most) {
      add_length("room.run_at_most", "room of {} for stair and landing", *job_.room.run_at_most, true,
                 [](Job& job, ShapeLimits&, Length to) { job.room.run_at_most = to; });
    }
    if (!job_.room.obstacles.empty()) {
      add_whole("room.obstacles", "the obstacles in the way", "the obstacles moved",
                [](Job& job, ShapeLimits&) { job.room.obstacles.clear(); });
    }
    if (job_.stair.risers) {
      add_whole("stair.risers", fmt::format("{} risers", *job_.stair.risers), "another number of risers",
                [](Job& job, ShapeLimits&) { job.stair.risers.reset(); });
    }
    if (job_.stair.going) {
      add_whole("stair.going", "a going (run) of " + tape_plain(*job_.stair.going, job_.about.units), "another going",
                [](Job& job, ShapeLimits&) { job.stair.going.reset(); });
    }
    if (job_.stringers.kind == StringerKind::ready_cut) {
      add_whole("stringers.kind", "the ready-cut stringers that the yard has", "stringers cut on the site",
                [](Job& job, ShapeLimits&) { job.stringers.kind = StringerKind::cut; });
    }
  }
  void add_of_the_pack() {
    const char* pack = "place.pack";
    add_length(pack, "a riser of at most {}", limits_.rise_max, true,
               [](Job&, ShapeLimits& limits, Length to) { limits.rise_max = to; });
    add_length(pack, "a riser of at least {}", limits_.rise_min, false,
               [](Job&, ShapeLimits& limits, Length to) { limits.rise_min = std::max(to, kSixteenth); });
    add_length(pack, "a going (run) of at least {}", limits_.going_min, false,
               [](Job&, ShapeLimits& limits, Length to) { limits.going_min = std::max(to, kSixteenth); });
    add_length(pack, "a going (run) of at most {}", limits_.going_max, true,
               [](Job&, ShapeLimits& limits, Length to) { limits.going_max = to; });
    add_length(pack, "a rise of at most {} in one flight", limits_.flight_rise_max, true,
               [](Job&, ShapeLimits& limits, Length to) { limits.flight_rise_max = to; });
    if (const auto& band = limits_.twice_rise_plus_going) {
      add_length(pack, "twice the rise plus the going of at most {}", band->to, true,
                 [](Job&, ShapeLimits& limits, Length to) { limits.twice_rise_plus_going->to = to; });
      add_length(pack, "twice the rise plus the going of at least {}", band->from, false,
                 [](Job&, ShapeLimits& limits, Length to) { limits.twice_rise_plus_going->from = to; });
    }
    if (limits_.pitch_max) {
      const double pitch = in_degrees(*limits_.pitch_max);
      all_.push_back({pack, [=](Job&, ShapeLimits& limits, double by) { limits.pitch_max = degrees(pitch + by); },
                      [=](double by) { return fmt::format("a pitch of at most {:g} degrees", pitch + by); },
                      kDegreeStep});
    }
  }

  const Job& job_;
  const ShapeLimits& limits_;
  double step_ = 0;
  std::vector<Limit> all_;
};

/// RETURNS the least multiple of its step by which that limit alone lets a flight fit.
std::optional<double> least_of(const Limit& limit, const std::function<bool(double)>& fits) {
  if (limit.step == 0) return fits(1.0) ? std::optional(1.0) : std::nullopt;
  double enough = limit.step, little = 0;
  while (!fits(enough)) {
    if (enough > kFree) return std::nullopt;
    little = enough;
    enough *= 2.0;
  }
  while (enough - little > limit.step * 1.5) {
    const double middle = little + limit.step * std::round((enough - little) / limit.step / 2.0);
    (fits(middle) ? enough : little) = middle;
  }
  return enough;
}

}  // namespace

std::vector<CollidingLimit> collision_of(const Job& job, const Site& site, const ShapeLimits& limits) {
  const Limits known(job, limits);
  const std::vector<Limit>& all = known.all();
  std::vector<bool> holds(all.size(), true);
  const auto fits = [&] {
    Job loose_job = job;
    ShapeLimits loose = limits;
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (!holds[i]) all[i].loosen(loose_job, loose, kFree);
    }
    return !fitting_flights(loose_job, site, loose).empty();
  };
  if (fits()) return {};
  for (std::size_t i = 0; i < all.size(); ++i) {
    holds[i] = false;
    if (fits()) holds[i] = true;
  }
  std::vector<CollidingLimit> out;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!holds[i]) continue;
    const std::optional<double> by = least_of(all[i], [&](double amount) {
      Job loose_job = job;
      ShapeLimits loose = limits;
      all[i].loosen(loose_job, loose, amount);
      return !fitting_flights(loose_job, site, loose).empty();
    });
    out.push_back({all[i].place, all[i].words(0.0), by ? all[i].words(*by) : ""});
  }
  return out;
}

}  // namespace pitchboard
