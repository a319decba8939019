#pragma once
// What can be bought: sections of lumber, hardware, species and treatments. The rows live in data/, each with its
// source.
//
// UNITS  inches, pounds, cents.

#include <span>
#include <string_view>

namespace pitchboard {

struct SectionRow {
  std::string_view nominal;         ///< "2x12"
  std::string_view words;           ///< "2x12"; for the order
  double thickness = 0, width = 0;  ///< dressed, dry
  std::string_view kind;            ///< "dimension", "board", "decking", "post", "baluster", "handrail"
  std::string_view source;
};

struct StockRow {
  std::string_view section;
  double length_feet = 0;
  int price_cents = 0;
  std::string_view source;
};

struct HardwareRow {
  std::string_view key;                     ///< "screw-10x3"
  std::string_view kind;                    ///< "bolt", "lag", "screw", "spike", "anchor", "connector"
  std::string_view words;                   ///< "#10 x 3 in exterior screw"
  double diameter = 0, length = 0;          ///< nominal shank, under the head to the tip; connectors: leg and height
  double head_radius = 0, head_height = 0;  ///< washer included; 0 height: drives flush
  double tool_radius = 0, tool_reach = 0;   ///< room that the socket or driver needs over the head
  double nut_radius = 0, nut_height = 0;    ///< washer, nut and stick-out at the far end
  double clearance_drill = 0;               ///< through the outer part
  double pilot_soft = 0, pilot_hard = 0;    ///< G <= 0.50, G > 0.50
  std::string_view driver;                  ///< "star T25", "3/4 in socket"
  int per_package = 1;
  std::string_view package;       ///< "piece", "box of 100"
  int price_cents = 0;            ///< one package, hot-dip galvanized
  double stainless_factor = 2.5;  ///< price of the stainless one over the galvanized one
  double weight = 0;              ///< one piece
  std::string_view source;
};

struct SpeciesRow {
  std::string_view key, words;
  double gravity = 0.5;    ///< G, oven-dry, for pilot holes
  double weight_wet = 40;  ///< lb per cubic foot as delivered, treated and wet
  bool durable = false;    ///< heartwood may stand outdoors untreated
  std::string_view source;
};

struct TreatmentRow {
  std::string_view key, words;
  std::string_view short_words;  ///< "ground contact"
  bool ground_contact = false;
  bool corrosive = false;  ///< copper: hot-dip galvanized or better
  std::string_view source;
};

/// What a landing and the care of cut wood take, by the package.
struct MaterialRow {
  std::string_view key;    ///< a pad layer's section: "sand"
  std::string_view group;  ///< "landing", "care"
  std::string_view words, package;
  std::string_view unit;  ///< of `yield`: "cu ft", "sq ft", "ft"
  double yield = 1.0;     ///< what one package gives
  double factor = 1.0;    ///< loose or uncut material for one placed
  int spare = 0;          ///< packages kept in hand
  int price_cents = 0;
  double weight = 0.0;      ///< pounds, one package
  std::string_view system;  ///< "metric": stands in for the key's other row where the job is metric
  std::string_view source;
};

struct SpanLimitRow {
  std::string_view key;  ///< "cut" (ready-cut ones too), "solid"
  double limit = 0;      ///< greatest level span of a stringer between bearings
  std::string_view source;
};

/// A figure that something goes by, by name: data/buying.toml, data/choosing.toml, data/post_footing.toml.
struct FigureRow {
  std::string_view key;
  double value = 0;
  std::string_view unit, words, source;
};
/// RETURNS the row, or nullptr when there is none of that key.
[[nodiscard]] const FigureRow* find_figure(std::span<const FigureRow> rows, std::string_view key);

[[nodiscard]] std::span<const SectionRow> sections();
[[nodiscard]] std::span<const StockRow> demo_stock();
[[nodiscard]] std::span<const HardwareRow> hardware();
[[nodiscard]] std::span<const MaterialRow> materials();
[[nodiscard]] std::span<const SpeciesRow> species();
[[nodiscard]] std::span<const TreatmentRow> treatments();
/// RETURNS the row, or nullptr when there is none of that name.
[[nodiscard]] const SectionRow* find_section(std::string_view nominal);
[[nodiscard]] const HardwareRow* find_hardware(std::string_view key);
[[nodiscard]] const SpeciesRow* find_species(std::string_view key);
[[nodiscard]] const TreatmentRow* find_treatment(std::string_view key);
[[nodiscard]] const SpanLimitRow* find_span_limit(std::string_view key);

}  // namespace pitchboard
