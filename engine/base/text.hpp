#pragma once
// Words that are copied far more often than they are made: literals and rows of data are only pointed at, made-up ones
// are shared.

#include <memory>
#include <string>
#include <string_view>

namespace pitchboard {

class Text {
 public:
  Text() = default;
  /// REQUIRES a literal.
  Text(const char* literal) : words_(literal) {}
  Text(std::string made) : made_(std::make_shared<const std::string>(std::move(made))), words_(*made_) {}
  /// REQUIRES words that outlive every copy: those of a row of data.
  static Text lasting(std::string_view words) {
    Text out;
    out.words_ = words;
    return out;
  }
  Text& operator+=(std::string_view more) { return *this = Text(str() += more); }
  operator std::string_view() const { return words_; }
  [[nodiscard]] std::string_view view() const { return words_; }
  [[nodiscard]] std::string str() const { return std::string(words_); }
  [[nodiscard]] bool empty() const { return words_.empty(); }
  friend bool operator==(const Text& p, std::string_view q) { return p.words_ == q; }
  friend bool operator==(const Text& p, const char* q) { return p.words_ == q; }
  friend bool operator==(const Text& p, const Text& q) { return p.words_ == q.words_; }

 private:
  std::shared_ptr<const std::string> made_;
  std::string_view words_;
};

}  // namespace pitchboard
