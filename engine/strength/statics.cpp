#include "engine/strength/statics.hpp"

#include <algorithm>
#include <cmath>

namespace pitchboard {
namespace {

/// Places tried along each span for a moving load and for the greatest sag; even, so that midspan is one of them.
constexpr int kPlaces = 48;
constexpr std::size_t kMostSpans = 6;
/// Far above the rounding of doubles.
constexpr double kRounding = 1e-9;

/// From place to place. One span alone is at its worst, whatever is asked, with a load at an end or at midspan, and
/// sags most at midspan.
int step_of(std::span<const double> spans) { return spans.size() == 1 ? kPlaces / 2 : 1; }

double uniform_on(const BeamLoads& loads, std::size_t span) {
  return span < loads.uniform.size() ? loads.uniform[span] : 0.0;
}

/// Moment at x of the span cut loose at its supports.
double loose_moment(double length, const BeamLoads& loads, std::size_t span, double x) {
  double moment = uniform_on(loads, span) * x * (length - x) / 2;
  for (const PointLoad& p : loads.points) {
    if (p.span != span) continue;
    const double a = p.from_left, b = length - a;
    moment += x <= a ? p.force * b * x / length : p.force * a * (length - x) / length;
  }
  return moment;
}

/// Reactions of the span cut loose.
void loose_reactions(double length, const BeamLoads& loads, std::size_t span, double& left, double& right) {
  left = right = uniform_on(loads, span) * length / 2;
  for (const PointLoad& p : loads.points) {
    if (p.span != span) continue;
    left += p.force * (length - p.from_left) / length;
    right += p.force * p.from_left / length;
  }
}

/// End moments over the inner supports. With A x / L of each loose moment area about its far end,
///   M[i-1] L[i] + 2 M[i] (L[i] + L[i+1]) + M[i+1] L[i+1] = - w[i] L[i]^3/4 - w[i+1] L[i+1]^3/4
///     - sum P a (L^2 - a^2)/L over the left span (a from its left end) - sum P b (L^2 - b^2)/L over the right one (b
///     from its right end);
/// tridiagonal and diagonally dominant: solved by elimination without pivots. What is eliminated depends on the spans
/// alone, and is done once for all loads.
class SupportMoments {
 public:
  explicit SupportMoments(std::span<const double> spans)
      : spans_(spans), diagonal_(spans.size() + 1, 1.0), carried_(spans.size() + 1, 0.0) {
    for (std::size_t i = 1; i < spans.size(); ++i) {
      const double l = spans[i - 1], r = spans[i];
      carried_[i] = i > 1 ? l / diagonal_[i - 1] : 0.0;
      diagonal_[i] = 2 * (l + r) - (i > 1 ? carried_[i] * l : 0.0);
    }
  }
  void put(std::vector<double>& moments, const BeamLoads& loads) const {
    const std::size_t n = spans_.size();
    moments.assign(n + 1, 0.0);
    if (n < 2) return;
    for (std::size_t i = 1; i < n; ++i) {
      const double l = spans_[i - 1], r = spans_[i];
      double rhs = -uniform_on(loads, i - 1) * l * l * l / 4 - uniform_on(loads, i) * r * r * r / 4;
      for (const PointLoad& p : loads.points) {
        const double a = p.from_left, b = r - p.from_left;
        if (p.span == i - 1) rhs -= p.force * a * (l * l - a * a) / l;
        if (p.span == i) rhs -= p.force * b * (r * r - b * b) / r;
      }
      moments[i] = rhs - carried_[i] * moments[i - 1];  // the right side, until they are solved from the last one back
    }
    for (std::size_t i = n - 1; i >= 1; --i)
      moments[i] = (moments[i] - (i + 1 < n ? spans_[i] * moments[i + 1] : 0.0)) / diagonal_[i];
  }

 private:
  std::span<const double> spans_;
  std::vector<double> diagonal_, carried_;
};

}  // namespace

double moment_at(std::span<const double> spans, const BeamLoads& loads, const BeamResult& result, std::size_t span,
                 double x) {
  const double length = spans[span];
  return loose_moment(length, loads, span, x) + result.support_moments[span] * (length - x) / length +
         result.support_moments[span + 1] * x / length;
}

namespace {

/// `result`: of another load on the same beam, the worst moments and shear of which stay where these are not worse.
void solve(BeamResult& result, std::span<const double> spans, const SupportMoments& moments, const BeamLoads& loads) {
  if (spans.empty()) return;
  moments.put(result.support_moments, loads);
  result.reactions.assign(spans.size() + 1, 0.0);
  for (std::size_t i = 0; i < spans.size(); ++i) {
    const double length = spans[i], w = uniform_on(loads, i);
    double left = 0, right = 0;
    loose_reactions(length, loads, i, left, right);
    const double tilt = (result.support_moments[i + 1] - result.support_moments[i]) / length;
    left += tilt;
    right -= tilt;
    result.reactions[i] += left;
    result.reactions[i + 1] += right;
    result.shear = std::max({result.shear, std::abs(left), std::abs(right)});
    result.hogging = std::max(result.hogging, -result.support_moments[i + 1]);

    // Nowhere does it sag more than by its own greatest moment cut loose and the end moment that sags it more.
    const double most =
        w * length * length / 8 + std::max({result.support_moments[i], result.support_moments[i + 1], 0.0});
    const bool uniform_alone = std::ranges::find(loads.points, i, &PointLoad::span) == loads.points.end();
    if (uniform_alone && most * (1 + kRounding) <= result.sagging) continue;
    // The moment is greatest under a point load or where the shear between two of them passes through zero.
    const auto look_from = [&](double place) {
      result.sagging = std::max(result.sagging, moment_at(spans, loads, result, i, place));
      if (w <= 0) return;
      double shear = left - w * place, next = length;
      for (const PointLoad& p : loads.points) {
        if (p.span != i) continue;
        if (p.from_left <= place) {
          shear -= p.force;
        } else {
          next = std::min(next, p.from_left);
        }
      }
      const double zero = place + shear / w;
      if (zero > place && zero < next)
        result.sagging = std::max(result.sagging, moment_at(spans, loads, result, i, zero));
    };
    look_from(0.0);
    for (const PointLoad& p : loads.points)
      if (p.span == i) look_from(p.from_left);
  }
}

}  // namespace

BeamResult solve_beam(std::span<const double> spans, const BeamLoads& loads) {
  BeamResult result;
  solve(result, spans, SupportMoments(spans), loads);
  return result;
}

// By superposition on the span cut loose, s = L - x:
//   uniform      w x s (L^2 + x s) / (24 E I)
//   point at a   P b x (L^2 - b^2 - x^2) / (6 E I L) for x <= a, mirrored beyond
//   end moments  x s [M_left (L + s) + M_right (L + x)] / (6 E I L)
// and by shear k M0 / (G A), M0 the moment of the loose span: what the end moments add is straight and turns the span
// only.
Sag sag_at(std::span<const double> spans, const BeamLoads& loads, const BeamResult& result, std::size_t span, double x,
           const Stiffness& stiffness) {
  const double length = spans[span], s = length - x;
  double by_ei = uniform_on(loads, span) * x * s * (length * length + x * s) / 24;
  for (const PointLoad& p : loads.points) {
    if (p.span != span) continue;
    const bool before = x <= p.from_left;
    const double far = before ? length - p.from_left : p.from_left, near = before ? x : s;
    by_ei += p.force * far * near * (length * length - far * far - near * near) / (6 * length);
  }
  by_ei += x * s * (result.support_moments[span] * (length + s) + result.support_moments[span + 1] * (length + x)) /
           (6 * length);
  Sag sag;
  if (stiffness.ei > 0) sag.bending = by_ei / stiffness.ei;
  if (stiffness.ga_per_k > 0) sag.shear = loose_moment(length, loads, span, x) / stiffness.ga_per_k;
  return sag;
}

namespace {

/// `result`: the same one for all cases.
void keep_worst(BeamWorst& worst, const BeamResult& result) {
  worst.sagging = result.sagging;
  worst.hogging = result.hogging;
  worst.shear = result.shear;
  if (worst.reactions.empty()) worst.reactions = worst.least = result.reactions;
  for (std::size_t i = 0; i < result.reactions.size(); ++i) {
    worst.reactions[i] = std::max(worst.reactions[i], result.reactions[i]);
    worst.least[i] = std::min(worst.least[i], result.reactions[i]);
  }
}

void keep_worst(WorstSag& worst, const Sag& sag, double span) {
  if (worst.span == 0 || sag.total() / span > worst.sag.total() / worst.span) worst = {sag, span};
}

}  // namespace

BeamWorst worst_of_uniform(std::span<const double> spans, double live, double dead) {
  BeamWorst worst;
  BeamResult result;
  BeamLoads loads{.uniform = std::vector<double>(spans.size()), .points = {}};
  const SupportMoments moments(spans);
  const std::size_t patterns = live > 0 ? std::size_t{1} << std::min(spans.size(), kMostSpans) : 1;
  for (std::size_t pattern = 0; pattern < patterns; ++pattern) {
    for (std::size_t i = 0; i < spans.size(); ++i)
      loads.uniform[i] = dead + ((pattern >> std::min(i, kMostSpans - 1)) % 2 ? live : 0.0);
    solve(result, spans, moments, loads);
    keep_worst(worst, result);
  }
  return worst;
}

BeamWorst worst_of_point(std::span<const double> spans, double point, double dead) {
  BeamWorst worst;
  BeamResult result;
  BeamLoads loads{.uniform = std::vector<double>(spans.size(), dead), .points = {{.force = point}}};
  const SupportMoments moments(spans);
  for (std::size_t span = 0; span < spans.size(); ++span) {
    for (int k = 0; k <= kPlaces; k += step_of(spans)) {
      loads.points.front() = {span, spans[span] * k / kPlaces, point};
      solve(result, spans, moments, loads);
      keep_worst(worst, result);
    }
  }
  return worst;
}

// A span sags most with every second one loaded, itself among them: what lies on a span lifts its neighbours, lowers
// theirs, and so on, all along each of them, since the moments over the supports change sign from one to the next and
// fall to less than half.
WorstSag worst_sag_of_uniform(std::span<const double> spans, double live, double dead, const Stiffness& stiffness) {
  WorstSag worst;
  if (stiffness.ei <= 0) return worst;
  BeamResult result;
  BeamLoads loads{.uniform = std::vector<double>(spans.size()), .points = {}};
  const SupportMoments moments(spans);
  for (std::size_t span = 0; span < spans.size(); ++span) {
    for (std::size_t i = 0; i < spans.size(); ++i) loads.uniform[i] = dead + ((i + span) % 2 == 0 ? live : 0.0);
    moments.put(result.support_moments, loads);
    for (int k = step_of(spans); k < kPlaces; k += step_of(spans))
      keep_worst(worst, sag_at(spans, loads, result, span, spans[span] * k / kPlaces, stiffness), spans[span]);
  }
  return worst;
}

// The load sags the span most where it stands, at its worst place: by Maxwell's and Cauchy's rules the sag that it
// makes at another place is no more than the geometric mean of what it makes under itself standing at either, and less
// by much more than rounding when they are two of the places tried.
WorstSag worst_sag_of_point(std::span<const double> spans, double point, const Stiffness& stiffness) {
  WorstSag worst;
  if (stiffness.ei <= 0) return worst;
  BeamResult result;
  BeamLoads loads{.uniform = {}, .points = {{.force = point}}};
  const SupportMoments moments(spans);
  for (std::size_t span = 0; span < spans.size(); ++span) {
    for (int k = step_of(spans); k < kPlaces; k += step_of(spans)) {
      const double place = spans[span] * k / kPlaces;
      loads.points.front() = {span, place, point};
      moments.put(result.support_moments, loads);
      keep_worst(worst, sag_at(spans, loads, result, span, place, stiffness), spans[span]);
    }
  }
  return worst;
}

// Moments about the far support: near L = P (L + a). The tip goes down by the cantilever's P a^3/3EI and by a times the
// slope P a L/3EI of the span behind: P a^2 (L + a)/3EI. By shear k P a/GA, and the span behind, whose shear P a/L is
// the same all along, turns by k P a/(L GA).
Overhang solve_overhang(double point, double overhang, double span, const Stiffness& stiffness) {
  const double a = overhang;
  Overhang result{.moment = point * a, .near = point * (span + a) / span, .far = -point * a / span, .sag = {}};
  if (stiffness.ei > 0) result.sag.bending = point * a * a * (span + a) / (3 * stiffness.ei);
  if (stiffness.ga_per_k > 0) result.sag.shear = point * a * (1 + a / span) / stiffness.ga_per_k;
  return result;
}

}  // namespace pitchboard
