// SOURCE  NDS 2018 Table 4.3.1: which value takes which factor.
//   Fb        CD CF CM Ct Ci Cr Cfu CL        Fc        CD CF CM Ct Ci CP
//   Ft        CD CF CM Ct Ci                  Fc_perp   CM Ct Ci Cb
//   Fv        CD CM Ct Ci                     E, Emin   CM Ct Ci (Emin also CT, of trusses)
// Each factor is a figure of its own, also where it is 1.

#include "engine/strength/wood_values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/strength/hand_sheet.hpp"
#include "engine/strength/tables.hpp"

namespace pitchboard {
namespace {

/// Preservative-treated members take no more than this. SOURCE NDS 2018 Table 2.3.2, note on impact.
constexpr double kDurationAtMost = 1.6;
/// Three members or more under a common deck, no more than 24 in apart. SOURCE NDS 2018 4.3.9.
constexpr double kRepetitive = 1.15;
/// Beams no deeper than this times their thickness, nominal, need no support. SOURCE NDS 2018 4.4.1.
constexpr double kStandsBy = 2;
/// Slenderness that no beam and no column may pass. SOURCE NDS 2018 3.3.3.7 and 3.7.1.4.
constexpr double kSlendernessAtMost = 50;

struct ValueWords {
  Value which;
  std::string_view symbol, adjusted, words;
  double ReferenceValues::* reference;
  double ValueFactorRow::* factor;
  bool lasts;  ///< strength that depends on how long the load lasts: CD
};
constexpr std::array<ValueWords, 7> kValueWords{{
    {Value::bending, "Fb", "F'b", "bending", &ReferenceValues::fb, &ValueFactorRow::fb, true},
    {Value::tension, "Ft", "F't", "tension along the grain", &ReferenceValues::ft, &ValueFactorRow::ft, true},
    {Value::shear, "Fv", "F'v", "shear along the grain", &ReferenceValues::fv, &ValueFactorRow::fv, true},
    {Value::compression_across, "Fc_perp", "F'c_perp", "compression across the grain", &ReferenceValues::fc_perp,
     &ValueFactorRow::fc_perp, false},
    {Value::compression, "Fc", "F'c", "compression along the grain", &ReferenceValues::fc, &ValueFactorRow::fc, true},
    {Value::stiffness, "E", "E'", "stiffness", &ReferenceValues::e, &ValueFactorRow::e, false},
    {Value::least_stiffness, "Emin", "E'min", "stiffness against buckling", &ReferenceValues::e_min, &ValueFactorRow::e,
     false},
}};

const ValueWords& words_of(Value which) { return *std::ranges::find(kValueWords, which, &ValueWords::which); }

struct Factor {
  Text symbol, words;
  double value = 1;
  Text source;
  bool from_memory = false;
};

/// A reference value on its way to the adjusted one, written down step by step.
class Chain {
 public:
  Chain(HandSheet& sheet, Figure reference) : sheet_(sheet), product_(reference.value) {
    if (sheet_.written()) from_ = reference.symbol;
    sheet_.put(std::move(reference));
  }
  void times(Factor factor) {
    times(factor.value, factor.symbol);
    sheet_.put({std::move(factor.symbol), std::move(factor.words), factor.value, "", "", std::move(factor.source),
                factor.from_memory});
  }
  /// Multiplies by what is written down already.
  void times(double value, const Text& symbol) {
    product_ *= value;
    if (sheet_.written()) (from_ += " ") += symbol;
  }
  /// Gives the product so far a symbol of its own; what follows builds on that.
  double named(const Text& symbol, Text words) {
    if (!sheet_.written()) return product_;
    sheet_.put({symbol, std::move(words), product_, "psi", from_, "NDS 2018 Table 4.3.1", false});
    from_ = symbol;
    return product_;
  }

 private:
  HandSheet& sheet_;
  double product_;
  std::string from_;
};

/// Everything that the factors of one value go by.
struct Case {
  HandSheet& sheet;
  const ReferenceValues& values;
  const Member& member;
  const Service& service;
  Value which;
  NominalSize size = nominal_size(member);
  const ValueWords& words = words_of(which);

  [[nodiscard]] double depth() const { return service.flat ? member.thickness : member.width; }
  [[nodiscard]] double breadth() const { return service.flat ? member.width : member.thickness; }
  [[nodiscard]] double reference() const { return values.*(words.reference); }
  [[nodiscard]] Text said(const auto& made) const { return sheet.said(made); }
  [[nodiscard]] std::string width_words() const {
    return fmt::format("nominal width {:g}{}", size.width, size.named ? "" : ", the nearest to the dressed one");
  }
};

Figure reference_figure(const Case& at) {
  const bool proxy = at.size.deck_board && !at.values.table.empty();
  return {Text::lasting(at.words.symbol),
          at.said([&] {
            return fmt::format(
                "reference value of {}{}", at.words.words,
                proxy ? fmt::format(", that of 2x{:g} taken for the 5/4 deck board", at.size.width) : "");
          }),
          at.reference(),
          "psi",
          "",
          at.values.source,
          at.values.from_memory};
}

Factor duration_factor(const Case& at) {
  const Service& service = at.service;
  const auto words = [&] {
    std::string out = "load duration factor";
    if (!service.duration_words.empty()) (out += ", ") += service.duration_words;
    if (service.load_duration > kDurationAtMost) out += ", held to 1.6 for treated wood";
    return out;
  };
  return {"CD", at.said(words), std::min(service.load_duration, kDurationAtMost), "NDS 2018 Table 2.3.2",
          service.duration_from_memory};
}

/// Posts and timbers lose strength only past 12 in. SOURCE NDS 2018 4.3.6.2.
Factor timber_size_factor(const Case& at) {
  const double over = at.depth() / 12.0;
  return {"CF", "size factor of timbers, 1 to 12 in deep", over > 1 ? 1.0 / std::cbrt(std::cbrt(over)) : 1.0,
          "NDS 2018 4.3.6.2", over > 1};
}

Factor size_factor(const Case& at) {
  if (!at.values.size_factor && at.values.table.empty())
    return {"CF", "size factor, in the job's own values already", 1.0, "job: wood.own_values", false};
  if (at.values.timber) return timber_size_factor(at);
  const SizeFactorRow& row = size_factor_row(at.values.size_factor ? "4A" : "4B", at.size.width);
  const bool bending = at.which == Value::bending, thick = bending && at.size.thick();
  const double along = at.which == Value::tension ? row.ft : row.fc;
  const double factor = bending ? (thick ? row.fb_thick : row.fb_thin) : along;
  const std::string_view confidence = thick && !row.confidence_thick.empty() ? row.confidence_thick : row.confidence;
  const bool tabulated = !at.values.size_factor && factor == 1.0;
  const auto words = [&] {
    return fmt::format("size factor, {}{}", at.width_words(), tabulated ? ": in the value already" : "");
  };
  return {"CF", at.said(words), factor, Text::lasting(row.source), is_from_memory(confidence)};
}

/// `sized`: the reference value with CF, which decides whether wet wood loses anything.
Factor wet_factor(const Case& at, double sized) {
  const std::string_view form = at.values.timber ? "timber" : "dimension";
  const ValueFactorRow& row = value_factor_row("CM", form);
  Factor factor{"CM", "wet service factor, at most 19 % moisture", 1.0, Text::lasting(row.source), false};
  if (!at.service.wet) return factor;
  factor.from_memory = is_from_memory(row.confidence);
  if (at.values.wet_tabulated) {
    factor.words = "wet service factor, in the values already";
    return factor;
  }
  factor.words = "wet service factor";
  const double stays = at.which == Value::bending ? row.fb_stays : at.which == Value::compression ? row.fc_stays : 0.0;
  if (sized > stays + 1e-9) {
    factor.value = row.*(at.words.factor);
    return factor;
  }
  factor.words =
      at.said([&] { return fmt::format("wet service factor, 1 up to {} CF = {:g} psi", at.words.symbol, stays); });
  factor.source = at.said([&] { return factor.source.str() + "; where it is 1: from memory"; });
  factor.from_memory = true;
  return factor;
}

Factor heat_factor(const Case& at) {
  if (!at.service.hot) return {"Ct", "temperature factor, at most 100 F for long", 1.0, "NDS 2018 Table 2.3.3", false};
  const ValueFactorRow& row = value_factor_row("Ct", at.service.wet ? "hot, wet" : "hot, dry");
  return {"Ct", "temperature factor, 100 to 125 F for long", row.*(at.words.factor), Text::lasting(row.source),
          is_from_memory(row.confidence)};
}

Factor incising_factor(const Case& at) {
  const ValueFactorRow& row = value_factor_row("Ci", "incised");
  // The table is for lumber 2 to 4 in thick; timbers, of which it says nothing, take the same here.
  return {"Ci", at.service.incised ? "incising factor" : "incising factor, not incised",
          at.service.incised ? row.*(at.words.factor) : 1.0, Text::lasting(row.source),
          at.service.incised && (is_from_memory(row.confidence) || at.values.timber)};
}

Factor repetitive_factor(const Case& at) {
  const bool takes = at.service.repetitive && !at.values.timber;
  return {"Cr", takes ? "repetitive member factor" : "repetitive member factor, each member by itself",
          takes ? kRepetitive : 1.0, "NDS 2018 4.3.9", false};
}

Factor flat_factor(const Case& at) {
  if (!at.service.flat) return {"Cfu", "flat use factor, on edge", 1.0, "NDS 2018 4.3.7", false};
  if (at.values.timber) return {"Cfu", "flat use factor, none for timbers", 1.0, "NDS 2018 4.3.7", false};
  const SizeFactorRow& row = size_factor_row("4A", at.size.width);
  return {"Cfu", at.said([&] { return "flat use factor, " + at.width_words(); }),
          at.size.thick() ? row.flat_thick : row.flat_thin, Text::lasting(row.source), is_from_memory(row.confidence)};
}

/// (1 + F) / 2c less the root: the share of a strength that is left when buckling at F times that strength comes near.
double ylinen(double share, double c) {
  const double middle = (1.0 + share) / (2.0 * c);
  return middle - std::sqrt(middle * middle - share / c);
}

/// Writes E'min, its symbols marked so that none hides a factor of the strength itself. RETURNS it.
double buckling_stiffness(const Case& at) {
  HandSheet sheet(at.sheet.written());
  const double stiffness = adjusted(sheet, at.values, at.member, at.service, Value::least_stiffness);
  std::vector<Figure> figures = std::move(sheet).take();
  if (figures.empty()) return stiffness;
  for (std::size_t i = 1; i + 1 < figures.size(); ++i) figures[i].symbol += "_E";
  figures.back().from = "Emin";
  for (std::size_t i = 1; i + 1 < figures.size(); ++i) (figures.back().from += " ") += figures[i].symbol;
  return at.sheet.append(std::move(figures));
}

void bending_stability(const Case& at, Chain& chain) {
  const Service& service = at.service;
  Factor held{"CL", "beam stability factor, compressed edge held all along", 1.0, "NDS 2018 3.3.3", false};
  const bool stands = at.depth() <= at.breadth() || at.size.width <= kStandsBy * at.size.thickness;
  if (stands) held.words = "beam stability factor, too stocky to turn over";
  if (stands) held.source = "NDS 2018 3.3.3.1 and 4.4.1";
  if (stands || service.unbraced_length <= 0) {
    chain.times(std::move(held));
    return;
  }
  const double fb_star = chain.named("F*b", "bending value but for stability");
  const double e_min = buckling_stiffness(at);
  at.sheet.given("l_u", "length between lateral supports", service.unbraced_length, "in", "frame");
  chain.times(beam_stability(at.sheet, {.depth = at.depth(),
                                        .breadth = at.breadth(),
                                        .unbraced_length = service.unbraced_length,
                                        .fb_star = fb_star,
                                        .e_min = e_min}),
              "CL");
}

/// SOURCE  NDS 2018 3.7.1, from memory: FcE = 0.822 E'min / (l_e / d)^2, c = 0.8 for sawn lumber.
void column_stability(const Case& at, Chain& chain) {
  constexpr double kSawn = 0.8;
  constexpr const char* kSource = "from memory: NDS 2018 3.7.1";
  const double length = at.service.column_length, least = std::min(at.member.thickness, at.member.width);
  if (length <= 0) {
    chain.times({"CP", "column stability factor, held all along", 1.0, "NDS 2018 3.7.1.2", false});
    return;
  }
  const double fc_star = chain.named("F*c", "compression value but for stability");
  const double stiffness = buckling_stiffness(at), slenderness = length / least;
  const double buckling = 0.822 * stiffness / (slenderness * slenderness);
  const bool allowed = slenderness <= kSlendernessAtMost;
  HandSheet& sheet = at.sheet;
  sheet.worked("l_e/d", "slenderness of the column about its thinner side", slenderness, "", "", kSource, true);
  sheet.worked("FcE", "buckling stress", buckling, "psi", "0.822 E'min / (l_e/d)^2", kSource, true);
  chain.times(
      sheet.worked("CP",
                   allowed ? "column stability factor, c = 0.8" : "column stability factor: none, slenderness over 50",
                   allowed ? ylinen(buckling / fc_star, kSawn) : 0.0, "",
                   "(1 + F)/2c - sqrt(((1 + F)/2c)^2 - F/c), F = FcE / F*c", kSource, true),
      "CP");
}

/// SOURCE  NDS 2018 3.10.4, from memory: bearings under 6 in long gain by the wood beside them.
Factor bearing_factor(const Case& at) {
  const double length = at.service.bearing_length;
  const bool gains = length > 0 && length < 6;
  const auto words = [&] {
    return gains ? fmt::format("bearing area factor, {:g} in along the grain", length) : "bearing area factor";
  };
  return {"Cb", at.said(words), gains ? (length + 0.375) / length : 1.0, "from memory: NDS 2018 3.10.4", gains};
}

}  // namespace

double beam_stability(HandSheet& sheet, const UnbracedBeam& beam) {
  const double lu = beam.unbraced_length, d = beam.depth;
  const bool stocky = lu < 7 * d;
  double effective = std::max(1.63 * lu + 3 * d, 1.84 * lu);
  const char* from = effective > 1.84 * lu ? "1.63 l_u + 3 d" : "1.84 l_u";
  bool from_memory = effective <= 1.84 * lu;
  if (stocky) {
    effective = 2.06 * lu;
    from = "2.06 l_u";
    from_memory = false;
  }
  if (beam.load == BeamLoad::at_middle) {
    effective = stocky ? 1.80 * lu : 1.37 * lu + 3 * d;
    from = stocky ? "1.80 l_u" : "1.37 l_u + 3 d";
    from_memory = false;
  } else if (beam.load == BeamLoad::at_middle_braced) {
    effective = 1.11 * lu;
    from = "1.11 l_u";
    from_memory = false;
  }
  const double slenderness = std::sqrt(effective * d) / beam.breadth;
  const double buckling = 1.20 * beam.e_min / (slenderness * slenderness);
  const bool allowed = slenderness <= kSlendernessAtMost;
  sheet.worked("l_e", "effective length", effective, "in", from, "NDS 2018 Table 3.3.3", from_memory);
  sheet.worked("RB", "slenderness of the beam", slenderness, "", "sqrt(l_e d / b^2)", "NDS 2018 3.3.3.6");
  sheet.worked("FbE", "buckling stress", buckling, "psi", "1.20 E'min / RB^2", "NDS 2018 3.3.3.8");
  return sheet.worked("CL", allowed ? "beam stability factor" : "beam stability factor: none, slenderness over 50",
                      allowed ? ylinen(buckling / beam.fb_star, 0.95) : 0.0, "",
                      "(1 + F)/1.9 - sqrt(((1 + F)/1.9)^2 - F/0.95), F = FbE / F*b", "NDS 2018 3.3.3.8");
}

double adjusted(HandSheet& sheet, const ReferenceValues& values, const Member& member, const Service& service,
                Value which) {
  const Case at{.sheet = sheet, .values = values, .member = member, .service = service, .which = which};
  const bool bending = which == Value::bending, column = which == Value::compression;
  Chain chain(sheet, reference_figure(at));
  if (at.words.lasts) chain.times(duration_factor(at));
  double sized = at.reference();
  if (bending || column || which == Value::tension) {
    Factor size = size_factor(at);
    sized *= size.value;
    chain.times(std::move(size));
  }
  chain.times(wet_factor(at, sized));
  chain.times(heat_factor(at));
  chain.times(incising_factor(at));
  if (bending) {
    chain.times(repetitive_factor(at));
    bending_stability(at, chain);
    chain.times(flat_factor(at));
  }
  if (column) column_stability(at, chain);
  if (which == Value::compression_across) chain.times(bearing_factor(at));
  if (which == Value::least_stiffness)
    chain.times({"CT", "buckling stiffness factor, of trusses only", 1.0, "NDS 2018 4.4.2", false});
  return chain.named(Text::lasting(at.words.adjusted),
                     at.said([&] { return fmt::format("adjusted value of {}", at.words.words); }));
}

double bearing_at_angle(double fc_star, double fc_perp, double degrees_from_grain) {
  const double radians = degrees_from_grain * kPi / 180.0;
  const double along = std::cos(radians) * std::cos(radians), across = 1.0 - along;
  return fc_star * fc_perp / (fc_star * across + fc_perp * along);
}

}  // namespace pitchboard
