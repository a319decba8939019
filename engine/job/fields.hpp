#pragma once
// What a job file may hold: one record per input, as plain values for help, schema, reference page and forms.
//
// SOURCE  the records are in inputs.hpp, bound to the members of Job; defaults are those of a default Job.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "engine/job/words.hpp"

namespace pitchboard {

struct Range {
  double least = 0, most = 0;
};

enum class FieldType { group, list, length, number, count, yes_no, text, texts, choice, price };

struct Field {
  std::string key;  ///< "deck.board_thickness"; in a list: "yard.stock[].length"
  FieldType type = FieldType::text;
  std::string_view sentence;
  std::string_view unit;       ///< numbers only
  std::optional<Range> range;  ///< in `unit`; lengths in inches
  bool required = false;
  std::string default_value;     ///< as JSON; empty: it has none
  std::string_view default_why;  ///< source of the default, or what leaving it out means
  std::span<const Word> words;   ///< choices only
  std::string_view text_form;    ///< "section", "species", "treatment", "item", "date", "currency" or "" for free text
};

/// RETURNS every group, list and input in the order of the reference page; a group comes before what is in it.
[[nodiscard]] std::vector<Field> fields();
/// RETURNS what a field of that type holds, for people: "length", "yes or no".
[[nodiscard]] std::string_view type_words(FieldType type);
/// RETURNS the field's range as people write it (`1/2 in to 4 in`), empty when it has none.
[[nodiscard]] std::string range_words(const Field& field);
/// RETURNS the JSON Schema (draft 2020-12) of the canonical job.
[[nodiscard]] std::string schema_text();
/// RETURNS docs/job-file.md.
[[nodiscard]] std::string job_file_reference();

}  // namespace pitchboard
