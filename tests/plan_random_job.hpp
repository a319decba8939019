#pragma once
// Realistic jobs from a number: the same number gives the same job on every machine.
//
// Every input of the job file takes part. What is left out, and why:
//   existing top posts beside solid stringers: the connector on the stringer's outer face would stand in the post.

#include <algorithm>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "engine/job/job.hpp"

namespace pitchboard {

class RandomJob {
 public:
  explicit RandomJob(std::uint32_t seed) : random_(seed) {}

  Job make() {
    metric_ = one_in(5);
    about();
    deck();
    stair();
    stringers();
    ground();
    pad();
    rails();
    place();
    wood();
    yard();
    room();
    supports();
    posts();
    job_.saw.mitre_limit_degrees = of({45.0, 50.0, 60.0});
    return job_;
  }

 private:
  /// Raw generator words, since the standard's distributions differ from library to library.
  std::uint32_t below(std::uint32_t n) { return static_cast<std::uint32_t>(random_() % n); }
  bool one_in(std::uint32_t n) { return below(n) == 0; }
  double between(double a, double b) { return a + (b - a) * static_cast<double>(random_()) / 4294967296.0; }
  /// A length as a tape reads it: to 1/16 in, or to a millimetre.
  Length taped(double a, double b) {
    const double v = between(a, b);
    return metric_ ? millimetres(std::round(v * kMillimetresPerInch)) : inches(std::round(v * 16.0) / 16.0);
  }
  template <class T>
  T of(std::initializer_list<T> choices) {
    return *(choices.begin() + below(static_cast<std::uint32_t>(choices.size())));
  }

  void about() {
    job_.about = {.name = "Random job", .place = one_in(2) ? "somewhere" : "", .date = one_in(2) ? "2026-05-09" : ""};
    job_.about.units = metric_ ? UnitSystem::metric : UnitSystem::imperial;
  }

  void deck() {
    Deck& deck = job_.deck;
    deck.board_thickness = metric_ ? millimetres(28) : inches(of({1.0, 1.5}));
    deck.overhang = taped(0, 2);
    deck.rim_size = metric_ ? "45x295" : of({"2x8", "2x10", "2x12"});
    deck.behind = of({BehindRim::joists, BehindRim::solid_blocking, BehindRim::house_band, BehindRim::unknown});
    if (one_in(4)) {
      deck.fascia_thickness = inches(0.75);
      deck.fascia_below = taped(0, 2);
    }
    down_ = between(14, 120);
  }

  void stair() {
    Stair& stair = job_.stair;
    stair.width = taped(34, 60);
    stair.top = one_in(4) ? TopMode::full_tread : TopMode::deck_edge;
    stair.board_gap = taped(0.125, 0.375);
    stair.side_overhang = taped(0, 1);
    stair.nosing = taped(0.75, 1.25);
    stair.riser_boards = one_in(4) ? Risers::open : Risers::closed;
    stair.treads = of({TreadMake::two_2x6, TreadMake::two_2x6, TreadMake::one_2x12, TreadMake::two_5_4x6});
    if (metric_) {
      stair.treads = TreadMake::custom;
      stair.tread_thickness = millimetres(45);
      stair.tread_board_width = millimetres(145);
      stair.riser_thickness = millimetres(20);
    }
    if (one_in(6)) stair.going = taped(9.5, 10.75);
    if (one_in(10)) stair.risers = std::max(2, static_cast<int>(down_ / 7.0 + 0.5));
  }

  void stringers() {
    Stringers& stringers = job_.stringers;
    stringers.kind =
        of({StringerKind::cut, StringerKind::cut, StringerKind::cut, StringerKind::ready_cut, StringerKind::solid});
    stringers.board = metric_ ? "45x295" : "2x12";
    stringers.spacing_at_most = taped(12, 24);
    if (stringers.kind != StringerKind::solid && one_in(6)) stringers.count = 3 + static_cast<int>(below(2));
    if (stringers.kind != StringerKind::ready_cut) return;
    const double rise = between(6.75, 7.5);
    for (int risers = 2; risers <= 14; ++risers) {
      job_.yard.ready_cut.push_back({.name = "ready-cut, " + std::to_string(risers) + " risers",
                                     .risers = risers,
                                     .unit_rise = inches(std::round(rise * 8.0) / 8.0),
                                     .unit_going = inches(of({10.0, 10.25, 10.5})),
                                     .dropped = !one_in(3),
                                     .dropped_by = inches(of({1.0, 1.5})),
                                     .price = {1200 + 450 * risers}});
    }
  }

  void ground() {
    Ground& ground = job_.ground;
    ground.method = of({Method::line_level, Method::water_level, Method::laser, Method::long_level});
    if (one_in(3)) ground.tolerance = inches(of({0.0, 1.0 / 16.0, 0.25}));
    const double cross = between(-2, 2), slope = between(-0.02, 0.08);
    const bool one_line = one_in(3), middle_too = one_in(3);
    for (const Line line : {Line::left, Line::middle, Line::right}) {
      if (one_line ? line != Line::middle : line == Line::middle && !middle_too) continue;
      ReadingLine readings{line, {}};
      const double lower = line == Line::right ? cross : line == Line::middle ? cross / 2 : 0.0;
      double out = between(0, 24);
      for (std::uint32_t i = 0, n = 1 + below(5); i < n; ++i) {
        const double bump = between(-0.5, 0.5);
        readings.readings.push_back({taped(out, out), taped(0, 0) + taped(down_ + lower + slope * out + bump,
                                                                          down_ + lower + slope * out + bump)});
        out += between(12, 60);
      }
      ground.lines.push_back(std::move(readings));
    }
    slope_ = slope;
  }

  void pad() {
    Pad& pad = job_.pad;
    pad.make = of({PadMake::pavers, PadMake::concrete, PadMake::gravel});
    pad.raise_at_most = taped(0, 8);
    pad.dig_at_most = taped(0, 4);
    pad.length = taped(36, 48);
    pad.fall = between(0, 0.025);
    if (one_in(4)) pad.later_finish = taped(0.25, 1.25);
    if (!one_in(4)) return;
    pad.existing = true;
    pad.from = taped(0, 12);
    pad.down = taped(down_ + between(-1, 1), down_ + 1);
    pad.cross_fall = between(-0.02, 0.02);
  }

  void rails() {
    Rails& rails = job_.rails;
    rails.left = one_in(4) ? SideRail::none : SideRail::guard;
    rails.right = one_in(4) ? SideRail::none : SideRail::guard;
    rails.balusters = of({BalusterKind::wood_2x2, BalusterKind::round_metal, BalusterKind::none});
    rails.baluster_gap_at_most = taped(3, 3.875);
    rails.handrail = of({HandrailWish::as_required, HandrailWish::as_required, HandrailWish::yes, HandrailWish::no});
    rails.height = taped(34, 38);
    rails.cap_overhang = taped(0, 0.5);
    rails.post_spacing_at_most = taped(48, 84);
    if (metric_) {
      rails.post = "95x95";
      rails.rail = "45x95";
      rails.cap = "45x145";
    }
    if (job_.stringers.kind != StringerKind::solid && one_in(6)) {
      rails.top_posts = TopPosts::existing;
      rails.existing_post_out = taped(3.75, 5);
    }
  }

  void place() {
    Place& place = job_.place;
    place.pack = metric_ ? of({"uk-adk-2013", "australia-ncc-2022", "nz-d1", "germany-din-18065", "canada-nbc-9.8"})
                         : of({"irc-2015", "irc-2018", "irc-2021", "irc-2024", "irc-2021", "ibc-2021"});
    if (place.pack.starts_with("irc") && one_in(3)) {
      place.amendments = {of({"us-pa", "us-mi", "us-va", "us-oh", "us-ct", "us-ma", "us-nc", "us-nj", "us-ny", "us-md",
                              "us-wi", "us-wa", "us-deck-60psf", "us-deck-guide"})};
    }
    if (one_in(4)) place.salt_water = feet(between(20, 4000));
    if (!one_in(3)) place.frost_depth = taped(6, 60);
    if (one_in(2)) {
      place.latitude = between(-50, 60);
      place.longitude = between(-170, 170);
    }
  }

  void wood() {
    Wood& wood = job_.wood;
    wood.species = metric_ ? "european-redwood" : of({"southern-pine", "douglas-fir", "hem-fir", "spf"});
    wood.grade = metric_ ? "c24" : of({"no1", "no2"});
    wood.treatment = metric_ ? "uc4-en335" : of({"copper-uc4a", "copper-uc4a", "copper-uc3b"});
    if (!metric_ && one_in(5)) wood.rail_species = of({"western-cedar", "redwood"});
  }

  void yard() {
    Yard& yard = job_.yard;
    yard.kerf = metric_ ? millimetres(3) : inches(of({0.125, 0.09375}));
    yard.end_trim = taped(0, 1);
    if (yard.end_trim > inches(0.7)) yard.bad_end = yard.end_trim * 8.0;
    const auto sell = [&](const char* section, std::initializer_list<double> lengths, double per_inch) {
      for (const double length : lengths) {
        const auto cents = static_cast<std::int64_t>(length * per_inch * between(0.85, 1.15));
        yard.stock.push_back({section, metric_ ? millimetres(length * 25.0) : inches(length), {cents}});
      }
    };
    if (metric_) {
      yard.currency = "GBP";
      yard.price_date = "2026-04-15";
      sell("45x295", {96, 144, 192, 240}, 30);
      sell("45x145", {120, 168}, 11);
      sell("45x95", {96, 144, 192}, 7);
      sell("20x195", {96, 144}, 12);
      sell("95x95", {96, 120, 144}, 16);
      sell("2x2", {48, 96}, 4);
      sell("handrail-1-1/2", {96, 192}, 20);
    } else if (one_in(3)) {
      sell("2x6", {96, 120, 144, 192}, 9);
      sell("2x12", {120, 144, 192, 240}, 20);
    }
    if (one_in(3)) {
      yard.offcuts.push_back({metric_ ? "45x145" : "2x6", taped(20, 90), 1 + static_cast<int>(below(3)), {}});
      yard.offcuts.push_back({metric_ ? "45x95" : "2x4", taped(20, 60), 1 + static_cast<int>(below(3)), {250}});
    }
  }

  void room() {
    Room& room = job_.room;
    if (one_in(8)) room.run_at_most = taped(down_ * 1.6 + 40, down_ * 2 + 60);
    if (one_in(8)) {
      const Length from = taped(60, 300);
      room.obstacles.push_back({"downspout", {from, from + inches(8)}, {inches(2), inches(14)}});
    }
    if (one_in(4)) room.overheads.push_back({"eave", {inches(0), taped(12, 40)}, taped(70, 110)});
  }

  /// Mostly as many as the span asks for, else from none to three.
  void supports() {
    if (one_in(5)) job_.stringers.mid_supports = static_cast<int>(below(4));
    if (one_in(5)) job_.loads.soil = of({1000.0, 2000.0, 3000.0});
    if (one_in(8)) job_.loads.live = of({60.0, 100.0});
  }

  /// How the posts are held; drawn last, so that these choices change no other.
  void posts() {
    job_.rails.post_bolt = one_in(3) ? BoltSize::five_eighths : BoltSize::half_inch;
    job_.rails.hold_downs = one_in(2);
    job_.rails.foot_posts = one_in(3) ? FootPosts::footing : FootPosts::bolted;
    if (one_in(4)) job_.loads.rail = between(100, 300);
  }

  std::mt19937 random_;
  Job job_;
  bool metric_ = false;
  double down_ = 0, slope_ = 0;
};

/// RETURNS the job of that number.
[[nodiscard]] inline Job random_job(std::uint32_t seed) { return RandomJob(seed).make(); }

}  // namespace pitchboard
