#pragma once
// Physical quantities as types, so that inches plus pounds does not compile.
//
// UNITS   a Length holds inches, an Angle radians, a Force pounds-force, an Area square inches, a Volume cubic inches,
// a
//         Moment inch-pounds, a Stress pounds per square inch.
// SOURCE  1 in = 25.4 mm exactly (international inch, 1959).

#include <cmath>
#include <compare>
#include <cstdint>

namespace pitchboard {

template <class Dimension>
class Quantity {
 public:
  constexpr Quantity() = default;
  /// The bare number in the unit named at the top of this file; only for the edges (text, drawing, data).
  [[nodiscard]] constexpr double raw() const { return value_; }
  [[nodiscard]] static constexpr Quantity from_raw(double value) { return Quantity(value); }

  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.value_ + b.value_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.value_ - b.value_); }
  friend constexpr Quantity operator-(Quantity a) { return Quantity(-a.value_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.value_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.value_ * k); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.value_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
  friend constexpr auto operator<=>(Quantity a, Quantity b) = default;
  // Each is one instruction; by way of <=> compilers make three branches of it.
  friend constexpr bool operator<(Quantity a, Quantity b) { return a.value_ < b.value_; }
  friend constexpr bool operator>(Quantity a, Quantity b) { return a.value_ > b.value_; }
  friend constexpr bool operator<=(Quantity a, Quantity b) { return a.value_ <= b.value_; }
  friend constexpr bool operator>=(Quantity a, Quantity b) { return a.value_ >= b.value_; }
  constexpr Quantity& operator+=(Quantity b) { return *this = *this + b; }
  constexpr Quantity& operator-=(Quantity b) { return *this = *this - b; }

 private:
  constexpr explicit Quantity(double value) : value_(value) {}
  double value_ = 0.0;
};

using Length = Quantity<struct LengthDimension>;
using Area = Quantity<struct AreaDimension>;
using Volume = Quantity<struct VolumeDimension>;
using Angle = Quantity<struct AngleDimension>;
using Force = Quantity<struct ForceDimension>;
using Moment = Quantity<struct MomentDimension>;
using Stress = Quantity<struct StressDimension>;

constexpr double kMillimetresPerInch = 25.4;
constexpr double kPi = 3.14159265358979323846;

[[nodiscard]] constexpr Length inches(double v) { return Length::from_raw(v); }
[[nodiscard]] constexpr Length feet(double v) { return Length::from_raw(v * 12.0); }
[[nodiscard]] constexpr Length millimetres(double v) { return Length::from_raw(v / kMillimetresPerInch); }
[[nodiscard]] constexpr double in_inches(Length v) { return v.raw(); }
[[nodiscard]] constexpr double in_millimetres(Length v) { return v.raw() * kMillimetresPerInch; }
[[nodiscard]] constexpr Angle degrees(double v) { return Angle::from_raw(v * kPi / 180.0); }
[[nodiscard]] constexpr double in_degrees(Angle v) { return v.raw() * 180.0 / kPi; }
[[nodiscard]] constexpr Force pounds(double v) { return Force::from_raw(v); }
[[nodiscard]] constexpr double in_pounds(Force v) { return v.raw(); }
[[nodiscard]] constexpr Stress psi(double v) { return Stress::from_raw(v); }
[[nodiscard]] constexpr double in_psi(Stress v) { return v.raw(); }
[[nodiscard]] constexpr double in_inch_pounds(Moment v) { return v.raw(); }
[[nodiscard]] constexpr double in_cubic_feet(Volume v) { return v.raw() / 1728.0; }

[[nodiscard]] constexpr Area operator*(Length a, Length b) { return Area::from_raw(a.raw() * b.raw()); }
[[nodiscard]] constexpr Volume operator*(Area a, Length b) { return Volume::from_raw(a.raw() * b.raw()); }
[[nodiscard]] constexpr Length operator/(Area a, Length b) { return Length::from_raw(a.raw() / b.raw()); }
[[nodiscard]] constexpr Moment operator*(Force a, Length b) { return Moment::from_raw(a.raw() * b.raw()); }
/// RETURNS M / S. `section_modulus` in cubic inches.
[[nodiscard]] constexpr Stress operator/(Moment a, Volume section_modulus) {
  return Stress::from_raw(a.raw() / section_modulus.raw());
}
[[nodiscard]] constexpr Stress operator/(Force a, Area b) { return Stress::from_raw(a.raw() / b.raw()); }
[[nodiscard]] constexpr Force operator*(Stress a, Area b) { return Force::from_raw(a.raw() * b.raw()); }
[[nodiscard]] constexpr Length abs(Length a) { return a < Length() ? -a : a; }
/// The hypotenuse of a right triangle, by square root so that every platform gives the same bits.
[[nodiscard]] inline Length hypotenuse(Length a, Length b) {
  return Length::from_raw(std::sqrt(a.raw() * a.raw() + b.raw() * b.raw()));
}
/// RETURNS `value` rounded to the nearest multiple of `step` (halves away from zero). REQUIRES step > 0.
[[nodiscard]] inline Length round_to(Length value, Length step) { return step * std::round(value / step); }

/// Money in whole cents of the job's currency, so that sums are exact.
struct Money {
  std::int64_t cents = 0;
  friend constexpr Money operator+(Money a, Money b) { return {a.cents + b.cents}; }
  friend constexpr Money operator*(Money a, std::int64_t n) { return {a.cents * n}; }
  friend constexpr auto operator<=>(Money a, Money b) = default;
  constexpr Money& operator+=(Money b) { return *this = *this + b; }
};

/// Finest step of a tape that people read on site. SOURCE common practice, no source.
constexpr Length kSixteenth = inches(1.0 / 16.0);
/// Two computed places closer than this are the same place. 2e-5 in is far below any tool and far above rounding of
/// doubles.
constexpr Length kTouch = inches(2e-5);

}  // namespace pitchboard
