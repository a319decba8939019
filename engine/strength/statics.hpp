#pragma once
// Statics of straight beams: one span, an end that overhangs, and spans that carry on over their supports.
//
// UNITS  inches, pounds, lb/in, in-lb. Loads down and reactions up are positive; sagging moments are positive.

#include <cstddef>
#include <span>
#include <vector>

namespace pitchboard {

/// How stiff a beam is; 0: no deflection is asked for.
struct Stiffness {
  double ei = 0;        ///< E I, lb-in2
  double ga_per_k = 0;  ///< G A / k, lb; 0: bending only
};

struct PointLoad {
  std::size_t span = 0;
  double from_left = 0;  ///< on that span
  double force = 0;
};
struct BeamLoads {
  std::vector<double> uniform;  ///< one a span, lb/in; empty: none
  std::vector<PointLoad> points;
};

struct BeamResult {
  std::vector<double> support_moments;  ///< one a support; 0 at both ends
  std::vector<double> reactions;        ///< one a support
  double sagging = 0, hogging = 0;      ///< greatest of each, both as positive numbers
  double shear = 0;                     ///< greatest, at an end of a span
};
/// RETURNS moments and reactions of a beam over hinged supports at the ends of every span, the same section all along.
/// 1. Sum of reactions = sum of loads; moments of all about any support = 0.
/// SOURCE three-moment equation (Clapeyron).
[[nodiscard]] BeamResult solve_beam(std::span<const double> spans, const BeamLoads& loads);
/// RETURNS the moment at a place on a span.
[[nodiscard]] double moment_at(std::span<const double> spans, const BeamLoads& loads, const BeamResult& result,
                               std::size_t span, double x);
/// RETURNS how far that place goes down, by bending and by shear.
struct Sag {
  double bending = 0, shear = 0;
  [[nodiscard]] double total() const { return bending + shear; }
};
[[nodiscard]] Sag sag_at(std::span<const double> spans, const BeamLoads& loads, const BeamResult& result,
                         std::size_t span, double x, const Stiffness& stiffness);

/// The worst of several cases of load, each quantity by itself.
struct BeamWorst {
  double sagging = 0, hogging = 0, shear = 0;
  std::vector<double> reactions, least;  ///< greatest and least ones; a negative one pulls up
  [[nodiscard]] double moment() const { return sagging > hogging ? sagging : hogging; }
};
/// RETURNS the worst of the live load on any of the spans, each loaded or not, the dead load on all. LIMIT 6 spans.
[[nodiscard]] BeamWorst worst_of_uniform(std::span<const double> spans, double live, double dead);
/// RETURNS the worst of one load anywhere, also beside a support, with the dead load on all.
[[nodiscard]] BeamWorst worst_of_point(std::span<const double> spans, double point, double dead);

/// Of the span where it is the greatest part of the span; nothing where the beam has no stiffness.
struct WorstSag {
  Sag sag;
  double span = 0;  ///< that span's length
};
/// RETURNS the worst of the same loads as worst_of_uniform.
[[nodiscard]] WorstSag worst_sag_of_uniform(std::span<const double> spans, double live, double dead, const Stiffness&);
/// RETURNS the worst of one load anywhere, nothing else on the beam.
[[nodiscard]] WorstSag worst_sag_of_point(std::span<const double> spans, double point, const Stiffness&);

/// An end that overhangs by `overhang` beyond the last support of a span, a load at its tip.
struct Overhang {
  double moment = 0;  ///< hogging, over the support
  double near = 0;    ///< reaction of the support beside it
  double far = 0;     ///< of the other one: negative, it is pulled up
  Sag sag;            ///< of the tip; the span behind gives way along with it
};
[[nodiscard]] Overhang solve_overhang(double point, double overhang, double span, const Stiffness& stiffness);

}  // namespace pitchboard
