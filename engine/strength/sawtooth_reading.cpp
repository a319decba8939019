// THROATS  The wood on one side of a section stands still under its loads, its supports and what the other side does to
//          it. Supports and loads press evenly over their stretch, also where the section cuts it, so with F along the
//          edge and M about the section's middle, of all that acts on the side with the lesser x, anticlockwise, and a
//          section b d: N = -F, and the stress at the upper end is N / (b d) + 6 M / (b d^2) if it runs straight. Such
//          a linearized stress is what codes for pressure vessels take where a corner is singular.

#include "engine/strength/sawtooth_reading.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/sort.hpp"

namespace pitchboard {
namespace {

/// Part of the lower edge left out at either end, where the supports' spread of the force shows.
constexpr double kEndShare = 0.125;
/// Left out on either side of a prop, by its seat's length: its pull along the edge ends at once, so stress grows
/// without end there, as the logarithm of the distance.
constexpr double kBesideSeat = 1.0;

Spot spot(Point p) { return {p.a.raw(), p.b.raw()}; }

/// RETURNS E along the unit vector t, of wood that only carries stress along it.
double modulus_along(const PlaneWood& wood, Spot t) {
  const double grain = wood.grain_a * wood.grain_a + wood.grain_b * wood.grain_b;
  const double cc = std::pow(t.x * wood.grain_a + t.y * wood.grain_b, 2) / grain, ss = 1.0 - cc;
  return 1.0 / (cc * cc / wood.e_l + ss * ss / wood.e_t + cc * ss * (1.0 / wood.g_lt - 2.0 * wood.nu_lt / wood.e_l));
}

Length middle_of(const EdgeSupport& s) { return (s.from.a + s.to.a) / 2.0; }
bool lies_on(const EdgeSupport& s, Point from, Point to) {
  return distance_to_outline({from, to}, {middle_of(s), (s.from.b + s.to.b) / 2.0}) < kTouch;
}

/// The plate as its lower edge sees it: places along the edge from its start, heights over it.
class Reading {
 public:
  Reading(const SawtoothModel& model, const SawtoothMesh& mesh, const LowerEdge& line, const PlateSolution& solution)
      : model_(model), mesh_(mesh), line_(line), solution_(solution), start_(spot(line.from)) {
    const Spot along = spot(line.to) - start_;
    length_ = std::sqrt(square(along));
    t_ = {along.x / length_, along.y / length_};
    set_bays();
  }

  void read_edge(const std::vector<OutlineEdge>& edges) {
    const double modulus = modulus_along(model_.wood, t_), barlow = 1.0 / std::sqrt(3.0);
    for (const OutlineEdge& e : edges) {
      const double from = there(node(e.from)).x, to = there(node(e.to)).x;
      const Spot u = moved(e.from), m = moved(e.middle), v = moved(e.to);
      for (std::size_t k = 0; k < half_.size(); ++k) {
        if (half_[k] < from || half_[k] >= to) continue;
        const double z = 2.0 * (half_[k] - from) / (to - from) - 1.0;
        const double nu = z * (z - 1.0) / 2.0, nm = 1.0 - z * z, nv = z * (z + 1.0) / 2.0;
        const Spot at{u.x * nu + m.x * nm + v.x * nv, u.y * nu + m.y * nm + v.y * nv};
        result_.bays[k].mid_down = -at.y;
        result_.bays[k].mid_normal = -cross(t_, at);  // out of the wood
      }
      for (const double z : {-barlow, barlow}) {
        const double place = from + (to - from) * (1.0 + z) / 2.0;
        const double strain =
            (dot(u, t_) * (z - 0.5) - dot(m, t_) * 2.0 * z + dot(v, t_) * (z + 0.5)) * 2.0 / (to - from);
        add_stress(place, strain * modulus);
      }
    }
  }

  void read_throats(std::span<const EdgeLoad> loads) {
    if (result_.props.empty()) return;
    Polygon outline = model_.outline;
    if (twice_area(outline) < 0) std::ranges::reverse(outline);
    for (Point& p : outline) {
      const Spot q = there(spot(p));
      p = {inches(q.x), inches(q.y)};
    }
    const std::size_t n = outline.size();
    for (std::size_t i = 0; i < n; ++i) {
      const Spot corner = spot(outline[i]);
      if (turn(spot(outline[(i + n - 1) % n]), corner, spot(outline[(i + 1) % n])) >= 0) continue;
      const std::size_t k = prop_by(corner.x);
      if (k == result_.props.size()) continue;
      double& most = result_.props[k].throat_stress;
      most = std::max(most, upper_stress(corner, outline, loads));
    }
  }

  [[nodiscard]] SawtoothResult take() {
    result_.nodes = static_cast<int>(mesh_.nodes.size());
    result_.elements = static_cast<int>(mesh_.elements.size());
    for (std::size_t k = 0; k < model_.supports.size(); ++k)
      result_.reactions_down += solution_.forces[k] * model_.supports[k].ny;
    return std::move(result_);
  }

  static double twice_area(const Polygon& outline) {
    double out = 0;
    for (std::size_t i = 0; i < outline.size(); ++i)
      out += cross(spot(outline[i]), spot(outline[(i + 1) % outline.size()]));
    return out;
  }

 private:
  struct Seat {
    double from = 0, to = 0;
  };

  [[nodiscard]] Spot node(int i) const { return spot(mesh_.nodes[static_cast<std::size_t>(i)]); }
  [[nodiscard]] Spot moved(int i) const { return solution_.moved[static_cast<std::size_t>(i)]; }
  [[nodiscard]] Spot there(Spot p) const { return {dot(p - start_, t_), cross(t_, p - start_)}; }
  [[nodiscard]] double place_below(Length x) const {
    return length_ * std::clamp((x - line_.from.a) / (line_.to.a - line_.from.a), 0.0, 1.0);
  }

  void set_bays() {
    Length least = middle_of(model_.supports.front()), most = least;
    for (std::size_t k = 0; k < model_.supports.size(); ++k) {
      const EdgeSupport& s = model_.supports[k];
      least = std::min(least, middle_of(s));
      most = std::max(most, middle_of(s));
      if (!lies_on(s, line_.from, line_.to)) continue;
      result_.props.push_back({.at = middle_of(s).raw(), .reaction = solution_.forces[k]});
      const auto [from, to] = std::minmax({there(spot(s.from)).x, there(spot(s.to)).x});
      seats_.push_back({from - kBesideSeat * (to - from), to + kBesideSeat * (to - from)});
    }
    sort_stably(result_.props, {}, &SawtoothProp::at);
    double from = least.raw();
    const auto add = [&](double to) {
      result_.bays.push_back({.from = from, .to = to});
      half_.push_back(place_below(inches((from + to) / 2.0)));
      from = to;
    };
    for (const SawtoothProp& prop : result_.props) add(prop.at);
    add(most.raw());
  }

  /// RETURNS the prop between whose bays' middles the place lies, or their count.
  [[nodiscard]] std::size_t prop_by(double place) const {
    for (std::size_t k = 0; k + 1 < half_.size(); ++k) {
      if (place > half_[k] && place < half_[k + 1]) return k;
    }
    return result_.props.size();
  }

  void add_stress(double place, double stress) {
    if (place < length_ * kEndShare || place > length_ * (1.0 - kEndShare)) return;
    if (std::ranges::any_of(seats_, [&](const Seat& seat) { return place > seat.from && place < seat.to; })) return;
    const auto bay = std::ranges::find_if(result_.bays, [&](const SawtoothBay& b) {
      return place >= place_below(inches(b.from)) && place <= place_below(inches(b.to));
    });
    if (bay != result_.bays.end()) bay->bottom_stress = std::max(bay->bottom_stress, stress);
    if (const std::size_t k = prop_by(place); k < result_.props.size())
      result_.props[k].bottom_stress = std::min(result_.props[k].bottom_stress, stress);
  }

  /// `outline`: the plate's, as the lower edge sees it; a throat runs down to the edge from its corner.
  [[nodiscard]] double upper_stress(Spot corner, const Polygon& outline, std::span<const EdgeLoad> loads) const {
    double along = 0, moment = 0;
    const auto add = [&](Spot place, Spot force) {
      along += force.x;
      moment += cross({place.x - corner.x, place.y - corner.y / 2.0}, force);
    };
    const auto add_even = [&](Point from, Point to, Spot force) {
      Spot p = there(spot(from)), q = there(spot(to));
      if (p.x > q.x) std::swap(p, q);
      if (p.x >= corner.x) return;
      const double share = q.x <= corner.x ? 1.0 : (corner.x - p.x) / (q.x - p.x);
      add({p.x + (q.x - p.x) * share / 2.0, p.y + (q.y - p.y) * share / 2.0},
          {dot(force, t_) * share, cross(t_, force) * share});
    };
    for (const EdgeLoad& load : loads) add_even(load.from, load.to, {0, -load.down});
    for (std::size_t k = 0; k < model_.supports.size(); ++k) {
      const EdgeSupport& s = model_.supports[k];
      add_even(s.from, s.to, {s.nx * solution_.forces[k], s.ny * solution_.forces[k]});
    }
    const Polygon side = clip_a(outline, {extent_a(outline).from, inches(corner.x)});
    const double pull = model_.weight_per_cubic_inch * model_.thickness;
    for (std::size_t i = 0; i < side.size(); ++i) {  // triangles from the start of the lower edge
      const Spot p = spot(side[i]), q = spot(side[(i + 1) % side.size()]);
      const double weight = pull * cross(p, q) / 2.0;
      add({(p.x + q.x) / 3.0, (p.y + q.y) / 3.0}, {-t_.y * weight, -t_.x * weight});
    }
    return -along / (model_.thickness * corner.y) + 6.0 * moment / (model_.thickness * corner.y * corner.y);
  }

  const SawtoothModel& model_;
  const SawtoothMesh& mesh_;
  const LowerEdge& line_;
  const PlateSolution& solution_;
  Spot start_, t_;
  double length_ = 0;
  std::vector<double> half_;  ///< places below the middles of the bays
  std::vector<Seat> seats_;   ///< with what is left out beside them
  SawtoothResult result_;
};

}  // namespace

std::optional<LowerEdge> lower_edge(const SawtoothModel& model) {
  const bool clockwise = Reading::twice_area(model.outline) < 0;
  const std::size_t n = model.outline.size();
  std::optional<LowerEdge> out;
  for (std::size_t i = 0; i < n; ++i) {
    Point p = model.outline[i], q = model.outline[(i + 1) % n];
    if (clockwise) std::swap(p, q);
    const bool below = q.a - p.a > kTouch;  // anticlockwise, wood lies to the left
    const bool bears = std::ranges::any_of(model.supports, [&](const EdgeSupport& s) {
      return lies_on(s, p, q) && distance(s.from, s.to) > distance(p, q) - kTouch;
    });
    if (below && !bears && (!out || distance(p, q) > distance(out->from, out->to))) out = LowerEdge{p, q};
  }
  return out;
}

SawtoothResult read_plate(const SawtoothModel& model, std::span<const EdgeLoad> loads, const SawtoothMesh& mesh,
                          const std::vector<OutlineEdge>& edges, const LowerEdge& line, const PlateSolution& solution) {
  Reading reading(model, mesh, line, solution);
  reading.read_edge(edges);
  reading.read_throats(loads);
  return reading.take();
}

}  // namespace pitchboard
