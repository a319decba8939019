// The fastener's own figures, how deep it stands, and what it carries along its axis.

#include "engine/strength/dowel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "data/fasteners.hpp"
#include "data/yield_strengths.hpp"
#include "engine/base/units.hpp"

namespace pitchboard {
namespace {

/// Two diameters closer than this are the same size: half of the step that the tables print.
constexpr double kSameDiameter = 0.0005;

std::string_view key_of(DowelKind kind) {
  switch (kind) {
    case DowelKind::bolt:
      return "bolt";
    case DowelKind::lag:
      return "lag";
    case DowelKind::wood_screw:
      return "wood_screw";
    case DowelKind::nail:
      break;
  }
  return "nail";
}

double yield_strength_of(DowelKind kind, double diameter) {
  for (const YieldStrengthRow& row : kYieldStrengths) {
    if (diameter >= row.at_least - kSameDiameter && diameter <= row.up_to + kSameDiameter && row.kind == key_of(kind))
      return row.yield_strength;
  }
  return 0;
}

/// SOURCE Lags NDS 2018 Table L2, wood screws Table L3 (two thirds of the length, at least four diameters), bolts Table
/// L1.
double thread_of(DowelKind kind, double diameter, double length) {
  switch (kind) {
    case DowelKind::lag:
      return length <= 1.0 ? 0.75 * length : std::min(6.0, length / 2.0 + 0.5);
    case DowelKind::wood_screw:
      return std::min(length, std::max(4.0 * diameter, length * 2.0 / 3.0));
    case DowelKind::bolt:
      return std::min(length, 2.0 * diameter + (length > 6.0 ? 0.5 : 0.25));
    case DowelKind::nail:
      break;
  }
  return 0;
}

double shared(double a0, double a1, double b0, double b1) { return std::max(0.0, std::min(a1, b1) - std::max(a0, b0)); }

}  // namespace

Dowel dowel_of(DowelKind kind, double diameter, double length) {
  Dowel dowel;
  dowel.kind = kind;
  dowel.diameter = diameter;
  dowel.length = length;
  dowel.thread = thread_of(kind, diameter, length);
  dowel.yield_strength = yield_strength_of(kind, diameter);
  dowel.source = "no table holds this size";
  for (const DowelRow& row : kDowelRows) {
    if (std::abs(row.diameter - diameter) > kSameDiameter || row.kind != key_of(kind)) continue;
    dowel.root = row.root;
    dowel.tip = row.tip;
    dowel.head = row.head;
    dowel.washer = row.washer;
    dowel.source = Text::lasting(row.source);
    dowel.from_memory = row.from_memory;
  }
  if (kind == DowelKind::nail) {  // a nail of any size is its own root
    dowel.root = diameter;
    if (dowel.head == 0) dowel.source = "nominal diameter";
  }
  if (kind == DowelKind::nail || kind == DowelKind::wood_screw) dowel.tip = 2.0 * diameter;
  dowel.in_yield = kind == DowelKind::bolt ? diameter : dowel.root;
  return dowel;
}

Penetration penetration(const Dowel& dowel, double side, double main) {
  Penetration out;
  const double length = dowel.length, diameter = dowel.diameter, end = side + main;
  if (dowel.kind == DowelKind::bolt) {
    out.lm = main;
    out.enough = length >= end;
    if (!out.enough) out.words = fmt::format("passes through {:.4g} in, is {:.4g} in long", end, length);
    return out;
  }
  // Side member [0, ts], main member [ts, ts + tm], tip [L - E, L]: what the tip has in the main member counts half.
  const double whole = shared(side, end, 0, length), body = shared(side, end, 0, length - dowel.tip);
  out.lm = body + (whole - body) / 2.0;
  if (dowel.kind == DowelKind::nail) {
    out.threads = whole;
  } else {
    const double thread_end = dowel.kind == DowelKind::lag ? length - dowel.tip : length;
    out.threads = shared(side, end, length - dowel.thread, thread_end);
  }
  const bool lag = dowel.kind == DowelKind::lag;
  const double needed = (lag ? 4.0 : 6.0) * diameter, there = lag ? body : whole;
  out.enough = there >= needed - 1e-9;
  if (out.enough) return out;
  out.words = fmt::format("{} D = {:.4g} in, the tip {}, have to stand in the last part; {:.4g} in stand there",
                          lag ? 4 : 6, needed, lag ? "not counted" : "counted", there);
  return out;
}

double withdrawal_per_inch(const Dowel& dowel, double gravity) {
  const double g = gravity, d = dowel.diameter;
  switch (dowel.kind) {
    case DowelKind::bolt:
      return 0;
    case DowelKind::lag:  // 12.2-1
      return 1800.0 * g * std::sqrt(g) * std::sqrt(d * std::sqrt(d));
    case DowelKind::wood_screw:  // 12.2-2
      return 2850.0 * g * g * d;
    case DowelKind::nail:  // 12.2-3, stainless 12.2-4
      return dowel.stainless ? 465.0 * g * std::sqrt(g) * d : 1380.0 * g * g * std::sqrt(g) * d;
  }
  return 0;
}

double head_pull_through(const Dowel& dowel, double gravity, double side_thickness) {
  if (dowel.kind == DowelKind::bolt || dowel.kind == DowelKind::lag) return 0;
  const double per_depth = 690.0 * kPi * dowel.head * gravity * gravity;  // 12.2-6a; beyond 2.5 DH 12.2-6b
  return per_depth * std::min(side_thickness, 2.5 * dowel.head);
}

double combined(DowelKind kind, double withdrawal, double lateral, double degrees) {
  const double c = std::cos(degrees * kPi / 180.0), s = std::sin(degrees * kPi / 180.0);
  if (kind == DowelKind::bolt) {
    const double most = 1e300;
    return std::min(std::abs(c) > 1e-12 ? lateral / std::abs(c) : most,
                    std::abs(s) > 1e-12 ? withdrawal / std::abs(s) : most);
  }
  const bool nail = kind == DowelKind::nail;
  const double across = nail ? std::abs(c) : c * c, along = nail ? std::abs(s) : s * s;
  const double below = withdrawal * across + lateral * along;
  return below > 0 ? withdrawal * lateral / below : 0.0;
}

double group_action(double diameter, int n, double spacing, double e_main, double area_main, double e_side,
                    double area_side, bool metal_side) {
  if (n < 2 || diameter < 0.25) return 1.0;
  const double main = e_main * area_main, side = e_side * area_side;
  const double r = std::min(side / main, main / side);
  const double gamma = (metal_side ? 270000.0 : 180000.0) * diameter * std::sqrt(diameter);
  const double u = 1.0 + gamma * (spacing / 2.0) * (1.0 / main + 1.0 / side);
  const double m = u - std::sqrt(u * u - 1.0);
  double mn = 1;  // m^n
  for (int i = 0; i < n; ++i) mn *= m;
  return m * (1.0 - mn * mn) / (n * ((1.0 + r * mn) * (1.0 + m) - 1.0 + mn * mn)) * (1.0 + r) / (1.0 - m);
}

}  // namespace pitchboard
