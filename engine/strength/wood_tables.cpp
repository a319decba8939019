// Which row of the tables a member takes, and why it takes none.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

#include "data/design_values.hpp"
#include "data/incised.hpp"
#include "data/size_factors.hpp"
#include "data/value_factors.hpp"
#include "engine/base/catalog.hpp"
#include "engine/strength/tables.hpp"
#include "engine/strength/wood_values.hpp"

namespace pitchboard {
namespace {

/// No nominal inch size is larger: a number above it in a section's name counts millimetres.
constexpr double kLargestNominal = 16;
/// Posts and timbers are no more than this wider than thick, nominal; wider ones are beams. SOURCE NDS Supplement 4.
constexpr double kPostWiderAtMost = 2;
constexpr std::string_view kHow = "enter them in wood.own_values, with where they are printed";

/// RETURNS "2" or "5/4" as a number; 0: no such number.
double inches_of(std::string_view text) {
  const auto whole = [](std::string_view digits) {
    int value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return error == std::errc() && end == digits.data() + digits.size() ? value : 0;
  };
  const std::size_t slash = text.find('/');
  if (slash == std::string_view::npos) return whole(text);
  const int below = whole(text.substr(slash + 1));
  return below > 0 ? static_cast<double>(whole(text.substr(0, slash))) / below : 0;
}

/// RETURNS the nominal inches whose dry dressed size is nearest. SOURCE PS 20: 1/2 in less up to 6, 3/4 in less above.
double nearest_nominal(double dressed) {
  constexpr std::array<double, 9> kNominal{2, 3, 4, 5, 6, 8, 10, 12, 14};
  return *std::ranges::min_element(
      kNominal, {}, [&](double nominal) { return std::abs(nominal - (nominal > 6 ? 0.75 : 0.5) - dressed); });
}

std::optional<ReferenceValues> own_values(const Wood& wood, const Member& member, const NominalSize& size) {
  for (const OwnValues& own : wood.own_values) {
    if (own.species != member.species || grade_key(own.grade) != grade_key(member.grade)) continue;
    return ReferenceValues{.fb = own.bending,
                           .ft = own.tension,
                           .fv = own.shear,
                           .fc_perp = own.compression_across,
                           .fc = own.compression,
                           .e = own.stiffness,
                           .e_min = own.least_stiffness,
                           .gravity = own.gravity,
                           .timber = size.timber(),
                           .size_factor = own.size_factor,
                           .source = "job: wood.own_values, " + own.source};
  }
  return std::nullopt;
}

/// RETURNS why the tables cannot hold that size; empty: they may.
std::string outside_of_tables(const Member& member, const NominalSize& size) {
  if (!size.named)
    return fmt::format("Design values are printed by nominal inch sizes, and {} is none: {}.", member.nominal, kHow);
  if (size.thickness < 2)
    return fmt::format("Design values begin at 2 in nominal thickness, above {}: {}.", member.nominal, kHow);
  if (size.timber() && size.width - size.thickness > kPostWiderAtMost)
    return fmt::format("{} is a beam, for which no design values are held: {}.", member.nominal, kHow);
  if (!size.timber() && size.thickness > 4)
    return fmt::format("No design values are held for the size {}: {}.", member.nominal, kHow);
  return "";
}

std::string missing_grade(const Member& member, bool timber) {
  std::string grades;
  for (const DesignValueRow& row : design_values()) {
    if (row.species != member.species || (row.table == "4D") != timber) continue;
    const std::string_view grade = row.grade;
    if ((", " + grades + ",").find(fmt::format(", {},", grade)) != std::string::npos) continue;
    grades += (grades.empty() ? "" : ", ") + std::string(grade);
  }
  const std::string_view form = timber ? "posts 5x5 and larger" : "lumber 2 to 4 in thick";
  if (grades.empty()) return fmt::format("No design values are held for {} of {}: {}.", form, member.species, kHow);
  return fmt::format("No design values are held for grade \"{}\" of {} among {}, only for {}: {}.", member.grade,
                     member.species, form, grades, kHow);
}

ReferenceValues from_row(const DesignValueRow& row, const NominalSize& size) {
  const SpeciesRow* kind = find_species(row.species);
  ReferenceValues values{.fb = row.fb,
                         .ft = row.ft,
                         .fv = row.fv,
                         .fc_perp = row.fc_perp,
                         .fc = row.fc,
                         .e = row.e,
                         .e_min = row.e_min,
                         .gravity = kind ? kind->gravity : 0,
                         .timber = row.table == "4D",
                         .size_factor = row.table == "4A",
                         .table = Text::lasting(row.table),
                         .wet_tabulated = row.wet_tabulated,
                         .source = Text::lasting(row.source),
                         .from_memory = is_from_memory(row.confidence)};
  if (size.deck_board) {
    values.source += fmt::format(", the row for 2x{:g} in place of a 5/4 deck board's own grade rules", size.width);
    values.from_memory = true;
  }
  return values;
}

}  // namespace

std::span<const DesignValueRow> design_values() { return kDesignValues; }
std::span<const SizeFactorRow> size_factors() { return kSizeFactors; }

const SizeFactorRow& size_factor_row(std::string_view table, double nominal_width) {
  const SizeFactorRow* best = nullptr;
  for (const SizeFactorRow& row : size_factors()) {
    if (row.table == table && (best == nullptr || row.width_from <= nominal_width)) best = &row;
  }
  return best == nullptr ? size_factors().front() : *best;
}

const ValueFactorRow& value_factor_row(std::string_view symbol, std::string_view condition) {
  const ValueFactorRow* const at = std::ranges::find_if(
      kValueFactors, [&](const ValueFactorRow& row) { return row.symbol == symbol && row.condition == condition; });
  return at == std::end(kValueFactors) ? kValueFactors[0] : *at;
}

std::string grade_key(std::string_view grade) {
  std::string key;
  for (const char c : grade) {
    if (c >= 'A' && c <= 'Z') key += static_cast<char>(c - 'A' + 'a');
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) key += c;
  }
  const auto replace = [&key](std::string_view old, std::string_view fresh) {
    if (const std::size_t at = key.find(old); at != std::string::npos) key.replace(at, old.size(), fresh);
  };
  replace("selectstructural", "ss");
  replace("better", "btr");
  replace("andbtr", "btr");
  replace("prime", "");  // Looks, not strength.
  if (!key.empty() && key.front() >= '0' && key.front() <= '9') key.insert(0, "no");
  if (key == "no2btr" || key == "no1no2" || key == "no12") key = "no2";
  return key;
}

NominalSize nominal_size(const Member& member) {
  const std::string_view name = member.nominal;
  if (const std::size_t cross = name.find('x'); cross != std::string_view::npos) {
    const double thickness = inches_of(name.substr(0, cross)), width = inches_of(name.substr(cross + 1));
    if (thickness > 0 && width > 0 && thickness <= kLargestNominal && width <= kLargestNominal) {
      const bool deck_board = thickness > 1 && thickness < 2;
      return {.thickness = deck_board ? 2 : thickness, .width = width, .deck_board = deck_board};
    }
  }
  return {.thickness = nearest_nominal(member.thickness), .width = nearest_nominal(member.width), .named = false};
}

std::optional<ReferenceValues> reference_values(const Wood& wood, const Member& member, std::string& why_not) {
  const NominalSize size = nominal_size(member);
  if (auto own = own_values(wood, member, size)) return own;
  const bool known =
      std::ranges::find(design_values(), member.species, &DesignValueRow::species) != design_values().end();
  if (!known) {
    why_not = fmt::format("No allowable-stress design values are held for {}: {}.", member.species, kHow);
    return std::nullopt;
  }
  why_not = outside_of_tables(member, size);
  if (!why_not.empty()) return std::nullopt;
  const std::string grade = grade_key(member.grade);
  const DesignValueRow* best = nullptr;
  for (const DesignValueRow& row : design_values()) {
    if (row.species == member.species && row.grade == grade && (row.table == "4D") == size.timber() &&
        (best == nullptr || row.width_from <= size.width))
      best = &row;
  }
  if (best != nullptr) return from_row(*best, size);
  why_not = missing_grade(member, size.timber());
  return std::nullopt;
}

const Woods::Known& Woods::of(const Member& member) {
  for (const std::unique_ptr<const Known>& known : known_) {
    if (known->member == member) return *known;
  }
  Known found{.member = member, .values = {}, .why_not = {}};
  found.values = reference_values(wood_, member, found.why_not);
  return *known_.emplace_back(std::make_unique<const Known>(std::move(found)));
}

bool usually_incised(std::string_view species, std::string_view treatment) {
  return std::ranges::any_of(
      kIncised, [&](const IncisedRow& row) { return row.species == species && row.treatment == treatment; });
}

}  // namespace pitchboard
