// Which rows are in force: a pack's own, with the clause numbers of its edition, and the amendments laid over them.

#include "data/packs.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <optional>
#include <string>

#include "data/australia_ncc.hpp"
#include "data/canada_nbc.hpp"
#include "data/germany_din.hpp"
#include "data/ibc.hpp"
#include "data/irc.hpp"
#include "data/irc_rails.hpp"
#include "data/nz_d1.hpp"
#include "data/uk_adk.hpp"
#include "data/us_amendments.hpp"
#include "engine/job/nearest.hpp"
#include "engine/rules/rules.hpp"

namespace pitchboard {
namespace {

constexpr std::array<std::span<const RuleRow>, 9> kTables{kIrcSteps,       kIrcRails,        kIbcRules,
                                                          kUsAmendments,   kUkRules,         kCanadaRules,
                                                          kAustraliaRules, kNewZealandRules, kGermanyRules};

const PackInfo* find_pack(std::string_view key, std::string_view kind) {
  const auto found = std::ranges::find_if(kPacks, [&](const PackInfo& p) { return p.key == key && p.kind == kind; });
  return found == std::end(kPacks) ? nullptr : found;
}

bool lists(std::string_view editions, std::string_view edition) {
  return editions.empty() || editions.find(edition) != std::string_view::npos;
}

/// RETURNS the row's clause as `edition` numbers it.
std::string_view clause_in(const RuleRow& row, std::string_view edition) {
  const std::size_t at = row.renumbered.find(edition);
  if (edition.empty() || at == std::string_view::npos) return row.clause;
  const std::string_view rest = row.renumbered.substr(at + edition.size() + 1);
  return rest.substr(0, rest.find(';'));
}

std::vector<RuleRow> rows_of(const PackInfo& pack, std::string_view quantity) {
  std::vector<RuleRow> out;
  for (const std::span<const RuleRow> table : kTables) {
    for (const RuleRow& written : table) {
      if (written.pack != pack.family || !lists(written.editions, pack.edition)) continue;
      if (!quantity.empty() && written.quantity != quantity) continue;
      RuleRow& row = out.emplace_back(written);
      row.clause = clause_in(row, pack.edition);
      row.pack = pack.key;
      if (!pack.caveat.empty() && row.confidence == "seen") row.confidence = "summary";
    }
  }
  return out;
}

/// A name of the form "irc-2021", taken apart; no year: another form.
struct Edition {
  std::string_view code;
  std::optional<int> year;
};

Edition edition_of(std::string_view key) {
  const std::size_t dash = key.rfind('-');
  if (dash == std::string_view::npos || key.size() != dash + 5) return {};
  Edition out{key.substr(0, dash), 0};
  for (const char c : key.substr(dash + 1)) {
    if (c < '0' || c > '9') return {};
    *out.year = *out.year * 10 + (c - '0');
  }
  return out;
}

/// RETURNS the key of the same code whose year is nearest, the later of equals; empty when none is of that code.
std::string_view nearest_edition(std::string_view written, const std::vector<std::string_view>& keys) {
  const Edition asked = edition_of(written);
  std::string_view best;
  int least = 0;
  for (const std::string_view key : keys) {
    const Edition edition = edition_of(key);
    if (!asked.year || !edition.year || edition.code != asked.code) continue;
    const int apart = std::abs(*edition.year - *asked.year);
    if (best.empty() || apart <= least) {
      best = key;
      least = apart;
    }
  }
  return best;
}

Problem unknown(std::string place, std::string_view kind, const std::string& written) {
  std::vector<std::string_view> keys;
  std::string all;
  for (const PackInfo& pack : kPacks) {
    if (pack.kind != kind) continue;
    keys.push_back(pack.key);
    all += (all.empty() ? "" : ", ") + std::string(pack.key);
  }
  std::string_view meant = nearest_edition(written, keys);
  if (meant.empty()) meant = nearest(written, keys);
  return {std::move(place),
          "there is no " + std::string(kind == "pack" ? "code pack" : "amendment") + " '" + written + "'",
          meant.empty() ? "choose one of " + all : "did you mean " + std::string(meant) + "?"};
}

}  // namespace

std::span<const PackInfo> packs() { return kPacks; }

std::vector<RuleRow> all_rules() {
  std::vector<RuleRow> out;
  for (const std::span<const RuleRow> table : kTables) out.insert(out.end(), table.begin(), table.end());
  return out;
}

Problems check_place(const Place& place) {
  Problems out;
  const PackInfo* pack = find_pack(place.pack, "pack");
  if (!pack) out.push_back(unknown("place.pack", "pack", place.pack));
  for (std::size_t i = 0; i < place.amendments.size(); ++i) {
    const std::string at = "place.amendments[" + std::to_string(i) + "]";
    const PackInfo* amendment = find_pack(place.amendments[i], "amendment");
    if (!amendment) {
      out.push_back(unknown(at, "amendment", place.amendments[i]));
    } else if (pack && amendment->applies_to != pack->family) {
      out.push_back({at, "'" + place.amendments[i] + "' does not amend " + place.pack,
                     "take it out, or choose a pack whose name begins with " + std::string(amendment->applies_to)});
    }
  }
  return out;
}

std::vector<RuleRow> rules_in_force(const Place& place, std::string_view quantity) {
  const PackInfo* pack = find_pack(place.pack, "pack");
  if (!pack) return {};
  std::vector<RuleRow> out = rows_of(*pack, quantity);
  for (const std::string& key : place.amendments) {
    const PackInfo* amendment = find_pack(key, "amendment");
    if (!amendment || amendment->applies_to != pack->family) continue;
    const std::vector<RuleRow> rows = rows_of(*amendment, quantity);
    std::erase_if(out, [&](const RuleRow& old) {
      return std::ranges::any_of(
          rows, [&](const RuleRow& r) { return r.quantity == old.quantity && r.compare == old.compare; });
    });
    out.insert(out.end(), rows.begin(), rows.end());
  }
  return out;
}

}  // namespace pitchboard
