#pragma once
// What stairs that were checked say of others: those alike in what a verdict is a matter of have the same.

#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "engine/choose/score.hpp"

namespace pitchboard {

class Memory {
 public:
  struct Known {
    const std::string* fault{};  ///< kind of one that it has to have; valid until more is remembered
    double ratio = 0;            ///< without one: no less than this
  };
  /// Takes in what was found of the stair with that key, in part or whole.
  void remember(const Key& key, const Evaluation& evaluation);
  /// `whatever`: what is a matter of any of these is left out.
  [[nodiscard]] Known of(const Key& key, Matters whatever = 0) const;
  /// RETURNS whether what is a matter of these was found already of a stair with that key.
  [[nodiscard]] bool has(const Key& key, Matters of) const;
  /// RETURNS the kinds of fault that a stair with that key has to have.
  [[nodiscard]] std::set<std::string> kinds_of(const Key& key) const;

 private:
  struct KeyHash {
    std::size_t operator()(const Key& key) const;
  };
  struct Remembered {
    double ratio = 0;
    std::string fault;
  };
  struct Seen {
    Matters of;
    Key mask;             ///< of those
    double most = 0;      ///< ratio that was found of any
    bool faults = false;  ///< one was found
    std::unordered_map<Key, Remembered, KeyHash> found;
    /// RETURNS what was found of a stair with that key, or nullptr.
    [[nodiscard]] const Remembered* look_up(const Key& key) const;
  };
  std::vector<Seen> seen_;
};

}  // namespace pitchboard
