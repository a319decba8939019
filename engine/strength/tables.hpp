#pragma once
// Rows of the design value tables in data/strength, and what of a member decides which row it takes.
//
// UNITS  lb per sq in; nominal inches.

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace pitchboard {

struct Member;

struct DesignValueRow {
  std::string_view species, grade;  ///< grade as `grade_key` writes it
  std::string_view table;           ///< of the NDS Supplement: "4A", "4B", "4D"
  double width_from = 0;            ///< nominal width from which the row holds, up to the next row's
  double fb = 0, ft = 0, fv = 0, fc_perp = 0, fc = 0, e = 0, e_min = 0;
  bool wet_tabulated = false;   ///< the values hold wet as they are
  std::string_view confidence;  ///< "seen" or "memory"
  std::string_view source;
};

struct SizeFactorRow {
  std::string_view table;
  double width_from = 0;
  double fb_thin = 1, fb_thick = 1, ft = 1, fc = 1;  ///< CF; thin: 2 and 3 in, thick: 4 in
  double flat_thin = 1, flat_thick = 1;              ///< Cfu
  std::string_view confidence, confidence_thick;     ///< the latter of `fb_thick` where it differs
  std::string_view source;
};

struct ValueFactorRow {
  std::string_view symbol, condition;
  double fb = 1, ft = 1, fv = 1, fc_perp = 1, fc = 1, e = 1;
  double fb_stays = 0, fc_stays = 0;  ///< CM is 1 up to this Fb CF, Fc CF
  std::string_view confidence, source;
};

struct IncisedRow {
  std::string_view species, treatment, source;
};

/// RETURNS whether a row with that confidence has no text behind it.
[[nodiscard]] constexpr bool is_from_memory(std::string_view confidence) { return confidence != "seen"; }

[[nodiscard]] std::span<const DesignValueRow> design_values();
[[nodiscard]] std::span<const SizeFactorRow> size_factors();
/// RETURNS the row for that nominal width. REQUIRES table "4A" or "4B".
[[nodiscard]] const SizeFactorRow& size_factor_row(std::string_view table, double nominal_width);
/// REQUIRES symbol and condition as in data/strength/value-factors.toml.
[[nodiscard]] const ValueFactorRow& value_factor_row(std::string_view symbol, std::string_view condition);

/// RETURNS the grade in one spelling: "No. 2", "#2", "2", "no2" give "no2"; "No.1 & Btr" gives "no1btr"; "Select
/// Structural" gives "ss"; "No.2 Prime" and "No.2 & better", which have the values of No.2, give "no2".
[[nodiscard]] std::string grade_key(std::string_view grade);

struct NominalSize {
  double thickness = 0, width = 0;
  bool named = true;        ///< the section's own name; false: the nearest to the dressed size
  bool deck_board = false;  ///< 5/4, which is no dimension lumber
  [[nodiscard]] bool timber() const { return thickness >= 5 && width >= 5; }
  [[nodiscard]] bool thick() const { return thickness >= 4; }
};
/// RETURNS "2x12" as 2 by 12; a metric or made-up section as the nearest nominal size to its dressed one.
[[nodiscard]] NominalSize nominal_size(const Member& member);

}  // namespace pitchboard
