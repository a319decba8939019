#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "engine/base/catalog.hpp"
#include "engine/job/inputs.hpp"
#include "engine/job/nearest.hpp"
#include "engine/job/read_job.hpp"

namespace pitchboard {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool is_date(std::string_view text) {
  constexpr std::string_view kShape = "0000-00-00";
  if (text.size() != kShape.size()) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (kShape[i] == '0' ? !is_digit(text[i]) : text[i] != '-') return false;
  }
  const int month = (text[5] - '0') * 10 + (text[6] - '0'), day = (text[8] - '0') * 10 + (text[9] - '0');
  return month >= 1 && month <= 12 && day >= 1 && day <= 31;
}

bool is_currency(std::string_view text) {
  return text.size() == 3 && std::ranges::all_of(text, [](char c) { return c >= 'A' && c <= 'Z'; });
}

template <class Row>
std::vector<std::string_view> names_of(std::span<const Row> rows, std::string_view Row::* name) {
  std::vector<std::string_view> names;
  for (const Row& row : rows) names.push_back(row.*name);
  return names;
}

void known(Problems& problems, const std::string& place, const std::string& value, std::string_view what,
           const std::vector<std::string_view>& names) {
  if (std::ranges::find(names, value) != names.end()) return;
  const std::string_view meant = nearest(value, names);
  problems.push_back({place, fmt::format("there is no {} '{}'", what, value),
                      meant.empty() ? fmt::format("choose one of {}", fmt::join(names, ", "))
                                    : fmt::format("did you mean {}?", meant)});
}

/// Holds every value against its own record.
class ValueCheck {
 public:
  ValueCheck(std::string place, UnitSystem units, Problems& problems)
      : place_(std::move(place)), units_(units), problems_(problems) {}

  template <class Member>
  void operator()(const Input& input, const Member& member) {
    check(input, at(input), member);
  }
  void operator()(const Input& input, ReadingsOf<const Ground> line) {
    for (const ReadingLine& each : line.ground.lines) {
      if (each.line == line.line) check(input, at(input), each.readings);
    }
  }
  template <class Group>
  void group(const Input& input, const Group& member) {
    descend(at(input), member);
  }

 private:
  [[nodiscard]] std::string at(const Input& input) const {
    return place_.empty() ? std::string(input.key) : fmt::format("{}.{}", place_, input.key);
  }
  template <class Group>
  void descend(std::string place, const Group& member) {
    ValueCheck inner(std::move(place), units_, problems_);
    inputs(inner, member);
  }
  template <class Text>
  void within(const Input& input, const std::string& place, double value, Text text) {
    if (!input.range || (value >= input.range->least && value <= input.range->most)) return;
    problems_.push_back({place, fmt::format("{} is out of range", text(value)),
                         fmt::format("give {} to {}", text(input.range->least), text(input.range->most))});
  }

  void check(const Input& input, const std::string& place, Length value) {
    within(input, place, in_inches(value), [&](double v) { return tape(inches(v), units_); });
  }
  void check(const Input& input, const std::string& place, double value) {
    within(input, place, value, [](double v) { return fmt::format("{}", v); });
  }
  void check(const Input& input, const std::string& place, int value) {
    check(input, place, static_cast<double>(value));
  }
  void check(const Input& input, const std::string& place, Money value) {
    within(input, place, static_cast<double>(value.cents) / 100.0, [](double v) { return fmt::format("{:.2f}", v); });
  }
  template <class Value>
    requires std::is_enum_v<Value> || std::is_same_v<Value, bool>
  void check(const Input&, const std::string&, Value) {}
  template <class Value>
  void check(const Input& input, const std::string& place, const std::optional<Value>& value) {
    if (value) check(input, place, *value);
  }
  template <class Item>
  void check(const Input&, const std::string& place, const std::vector<Item>& items) {
    if constexpr (!std::is_same_v<Item, std::string>) {
      for (std::size_t i = 0; i < items.size(); ++i) descend(fmt::format("{}[{}]", place, i), items[i]);
    }
  }

  void check(const Input& input, const std::string& place, const std::string& value) {
    if (value.empty() && input.may_be_empty) return;
    if (input.text_form == "section")
      known(problems_, place, value, "section", names_of(sections(), &SectionRow::nominal));
    if (input.text_form == "treatment")
      known(problems_, place, value, "treatment", names_of(treatments(), &TreatmentRow::key));
    if (input.text_form == "item") {
      std::vector<std::string_view> names = names_of(hardware(), &HardwareRow::key);
      std::ranges::copy(names_of(materials(), &MaterialRow::key), std::back_inserter(names));
      std::ranges::copy(names_of(sections(), &SectionRow::nominal), std::back_inserter(names));
      known(problems_, place, value, "item", names);
    }
    if (input.text_form == "date" && !is_date(value)) {
      problems_.push_back({place, fmt::format("'{}' is not a date", value), "write year-month-day: 2026-05-09"});
    }
    if (input.text_form == "currency" && !is_currency(value)) {
      problems_.push_back(
          {place, fmt::format("'{}' is not a currency", value), "write its three capital letters: USD"});
    }
  }
  std::string place_;
  UnitSystem units_;
  Problems& problems_;
};

// ------------------------------------------------------------------------------------------------ values held together

/// Room that a hand, a screw and a driver need between two stringers. SOURCE common practice, no source.
constexpr Length kBetweenStringers = inches(3.0);

class JobCheck {
 public:
  JobCheck(const Job& job, Problems& problems) : job_(job), problems_(problems) {}

  void all() {
    wood();
    deck();
    ground();
    pad();
    room();
    stair();
    stringers();
    rails();
    place();
    yard();
    choose();
  }

 private:
  void wrong(std::string place, std::string what, std::string remedy) {
    problems_.push_back({std::move(place), std::move(what), std::move(remedy)});
  }
  [[nodiscard]] std::string words(Length length) const { return tape(length, job_.about.units); }

  void choose() {
    for (std::size_t i = 0; i < job_.choose.keep.size(); ++i) {
      known(problems_, fmt::format("choose.keep[{}]", i), job_.choose.keep[i], "choice",
            {std::begin(kSearchedChoices), std::end(kSearchedChoices)});
    }
  }

  void deck() {
    if (job_.deck.fascia_below > Length() && job_.deck.fascia_thickness == Length()) {
      wrong("deck.fascia_below", "a fascia without thickness hangs below the rim",
            "give deck.fascia_thickness as well");
    }
  }

  void ground() {
    const bool any =
        std::ranges::any_of(job_.ground.lines, [](const ReadingLine& line) { return !line.readings.empty(); });
    if (!any) {
      wrong("ground", "there is no reading of the ground",
            "give at least one: middle = [{ out = \"6 ft\", down = \"41 1/2 in\" }]");
    }
    std::vector<Line> seen;
    for (const ReadingLine& line : job_.ground.lines) {
      const std::string place = fmt::format("ground.{}", word(line.line));
      if (std::ranges::find(seen, line.line) != seen.end()) wrong(place, "this line is there twice", "join the two");
      seen.push_back(line.line);
      for (std::size_t i = 1; i < line.readings.size(); ++i) {
        if (line.readings[i].out > line.readings[i - 1].out) continue;
        wrong(fmt::format("{}[{}].out", place, i),
              fmt::format("{} is no further out than the reading before it, {}", words(line.readings[i].out),
                          words(line.readings[i - 1].out)),
              "list the readings from the deck outwards, one at each place");
      }
    }
  }

  void pad() {
    const Pad& pad = job_.pad;
    if (pad.existing) {
      if (!pad.from)
        wrong("pad.from", "an existing pad needs its near edge", "give its distance out from the deck edge");
      if (!pad.down)
        wrong("pad.down", "an existing pad needs its level",
              "give how far its near edge lies below the deck surface, on the left");
      return;
    }
    constexpr std::string_view kRemedy = "set pad.existing = true, or leave it out";
    if (pad.from) wrong("pad.from", "a new pad's place follows from the stair", std::string(kRemedy));
    if (pad.down) wrong("pad.down", "a new pad's level follows from the stair", std::string(kRemedy));
    if (pad.cross_fall != 0) wrong("pad.cross_fall", "a new pad is laid level across the stair", std::string(kRemedy));
  }

  void ordered(const std::string& place, std::string_view what, Interval interval) {
    if (interval.from < interval.to) return;
    wrong(fmt::format("{}.{}_to", place, what), fmt::format("{} is not beyond {}_from", words(interval.to), what),
          "give where it begins first, then where it ends");
  }

  void room() {
    for (std::size_t i = 0; i < job_.room.obstacles.size(); ++i) {
      ordered(fmt::format("room.obstacles[{}]", i), "out", job_.room.obstacles[i].out);
      ordered(fmt::format("room.obstacles[{}]", i), "across", job_.room.obstacles[i].across);
    }
    for (std::size_t i = 0; i < job_.room.overheads.size(); ++i) {
      ordered(fmt::format("room.overheads[{}]", i), "out", job_.room.overheads[i].out);
    }
  }

  void stair() {
    const Stair& stair = job_.stair;
    if (stair.treads == TreadMake::custom) return;
    const Stair usual;
    constexpr std::string_view kWhy = "only custom treads have their own boards";
    constexpr std::string_view kRemedy = "set stair.treads = \"custom\", or leave it out";
    if (stair.tread_thickness != usual.tread_thickness)
      wrong("stair.tread_thickness", std::string(kWhy), std::string(kRemedy));
    if (stair.tread_board_width != usual.tread_board_width)
      wrong("stair.tread_board_width", std::string(kWhy), std::string(kRemedy));
    if (stair.tread_boards != usual.tread_boards) wrong("stair.tread_boards", std::string(kWhy), std::string(kRemedy));
  }

  void stringers() {
    const SectionRow* board = find_section(job_.stringers.board);
    if (job_.stringers.kind == StringerKind::ready_cut && job_.yard.ready_cut.empty()) {
      wrong("yard.ready_cut", "ready-cut stringers are wanted, but the yard has none",
            "list what the yard has, or set stringers.kind = \"cut\"");
    }
    const bool solid = job_.stringers.kind == StringerKind::solid;
    if (solid && job_.stringers.count && *job_.stringers.count != 2) {
      wrong("stringers.count", "the treads hang between two solid stringers",
            "leave the count out, or cut the stringers");
      return;
    }
    if (solid && job_.rails.top_posts == TopPosts::existing) {
      wrong("rails.top_posts",
            "solid stringers are hung by connectors on their outer faces, where the existing posts stand",
            "set rails.top_posts = \"new\", or stringers.kind = \"cut\"");
    }
    if (!board || !job_.stringers.count || *job_.stringers.count < 2) return;
    const Length thickness = inches(board->thickness);
    const Length apart = (job_.stair.width - thickness) / static_cast<double>(*job_.stringers.count - 1);
    if (apart < thickness + kBetweenStringers) {
      wrong(
          "stringers.count",
          fmt::format("{} stringers leave no room between them in {}", *job_.stringers.count, words(job_.stair.width)),
          fmt::format("leave at least {} clear between two", words(kBetweenStringers)));
    }
  }

  void rails() {
    const bool existing = job_.rails.top_posts == TopPosts::existing;
    const bool placed = job_.rails.existing_post_out != Length();
    if (existing && !placed) {
      wrong("rails.existing_post_out", "existing top posts need their place",
            "give their outer face, out from the deck edge");
    }
    if (!existing && placed) {
      wrong("rails.existing_post_out", "new top posts find their own place",
            "set rails.top_posts = \"existing\", or leave it out");
    }
  }

  void place() {
    if (job_.place.latitude.has_value() == job_.place.longitude.has_value()) return;
    wrong(job_.place.latitude ? "place.longitude" : "place.latitude", "daylight needs both latitude and longitude",
          "give both, or neither");
  }

  void wood() {
    std::vector<std::string_view> names = names_of(species(), &SpeciesRow::key);
    for (const OwnValues& own : job_.wood.own_values) names.push_back(own.species);
    known(problems_, "wood.species", job_.wood.species, "species", names);
    if (!job_.wood.rail_species.empty())
      known(problems_, "wood.rail_species", job_.wood.rail_species, "species", names);
  }

  void yard() {
    const std::vector<StockLength>& stock = job_.yard.stock;
    for (std::size_t i = 0; i < stock.size(); ++i) {
      const std::string place = fmt::format("yard.stock[{}]", i);
      if (stock[i].length <= job_.yard.end_trim * 2.0 + job_.yard.bad_end) {
        wrong(place + ".length", "the end trim and the bad end leave nothing of this board",
              "give a longer board or a smaller yard.end_trim or yard.bad_end");
      }
      for (std::size_t j = 0; j < i; ++j) {
        if (stock[i].section != stock[j].section || stock[i].length != stock[j].length) continue;
        wrong(place,
              fmt::format("{} {} is priced in yard.stock[{}] already", stock[i].section, words(stock[i].length), j),
              "keep one of them");
        break;
      }
    }
    for (std::size_t i = 0; i < job_.yard.prices.size(); ++i) {
      const ItemPrice& own = job_.yard.prices[i];
      if (own.length || !find_section(own.item)) continue;
      wrong(fmt::format("yard.prices[{}].length", i), "a board has a price for each length",
            "say how long the board is");
    }
    for (std::size_t i = 0; i < job_.yard.ready_cut.size(); ++i) {
      const ReadyCut& ready = job_.yard.ready_cut[i];
      if (!ready.dropped || ready.dropped_by < ready.unit_rise) continue;
      wrong(fmt::format("yard.ready_cut[{}].dropped_by", i), "the drop takes up the whole first riser",
            "measure the lowest riser cut again");
    }
  }

  const Job& job_;
  Problems& problems_;
};

}  // namespace

Problems check_job(const Job& job) {
  Problems problems;
  ValueCheck values("", job.about.units, problems);
  inputs(values, job);
  JobCheck(job, problems).all();
  return problems;
}

}  // namespace pitchboard
