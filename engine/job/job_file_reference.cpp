// docs/job-file.md, written from the records so that it cannot go stale.

#include <fmt/format.h>

#include "engine/job/fields.hpp"

namespace pitchboard {
namespace {

constexpr std::string_view kOpening = R"(# The job file

<!-- Written by `pitchboard fields --markdown`; change engine/job/inputs.hpp instead of this page. -->

A job file is everything you tell the program about one stair. People write it in TOML; the canonical form is the same tree in JSON
(`pitchboard fields --schema` prints its schema). What is left out keeps its default. Whatever is wrong is reported all at once, each
problem with its place.

```toml
[about]
name = "Back porch"

[ground]
method = "laser"
middle = [
  { out = "1 ft", down = "26 1/2 in" },
  { out = "6 ft", down = "28 in" },
]
```

**Lengths** are text with a unit, written as on site, each in inches or metric as you like: `47 3/8 in`, `47-3/8"`, `3' 11-3/8"`,
`3-11 3/8` (feet-inches), `3 ft 11 in`, `47.375 in`, `1203 mm`, `120.3 cm`, `1.2 m`. Refused, with what to write instead: no unit (`47`),
a sign, a comma, a fraction that no tape has, 12 inches or more after feet, and what could mean two things (`3-11`). In TOML
an inch mark inside double quotes needs a backslash (`"3' 11\""`), so `in` is easier.

**Sides** are left and right as seen from the ground, facing the house. **Out** is level, from the deck edge; **down** is plumb, from the
deck surface.

A key written `list[].key` belongs to each item of that list. "needed" means that there is no default.
)";

/// RETURNS the value column: type, unit, range, form.
std::string value_words(const Field& field) {
  std::string out(field.text_form.empty() ? type_words(field.type) : field.text_form);
  if (!field.unit.empty()) out += fmt::format(", {}", field.unit);
  if (field.range) out += fmt::format(", {}", range_words(field));
  return out;
}

std::string default_words(const Field& field) {
  if (field.required) return "needed";
  return field.default_value.empty() ? "" : fmt::format("`{}`", field.default_value);
}

}  // namespace

std::string job_file_reference() {
  std::string out(kOpening);
  const std::vector<Field> all = fields();
  for (std::size_t i = 0; i < all.size();) {
    const Field& group = all[i];
    out += fmt::format(
        "\n## {}\n\n{}\n\n| key | what it is | value | default | why, or what leaving it out means "
        "|\n|---|---|---|---|---|\n",
        group.key, group.sentence);
    std::string choices;
    for (++i; i < all.size() && all[i].type != FieldType::group; ++i) {
      const Field& field = all[i];
      const std::string key = field.key.substr(group.key.size() + 1);
      out += fmt::format("| `{}` | {} | {} | {} | {} |\n", key, field.sentence, value_words(field),
                         default_words(field), field.default_why);
      if (field.words.empty()) continue;
      choices += fmt::format("\n`{}` is one of\n", key);
      for (const Word& each : field.words) choices += fmt::format("- `\"{}\"`: {}\n", each.word, each.sentence);
    }
    out += choices;
  }
  return out;
}

}  // namespace pitchboard
