// Plane stress of an orthotropic plate on six-node triangles.
//
// SYMBOLS  K u = f - Cᵀ λ and C u = 0: stiffness, displacements, loads; each row of C takes the mean displacement of a
//          support along its direction, and its λ is the force there. K alone cannot be factored, it lets the plate fly
//          away; K + s CᵀC can, and since C u = 0 it has the same solution for every s > 0:
//          u = A⁻¹ f - A⁻¹Cᵀ λ with A = K + s CᵀC, and (C A⁻¹ Cᵀ) λ = C A⁻¹ f, as large as there are supports.
// SOURCE   O. C. Zienkiewicz, R. L. Taylor, The Finite Element Method; M. Benzi, G. H. Golub, J. Liesen, Numerical
//          solution of saddle point problems, Acta Numerica 14, 2005 (the augmented form); J. Barlow, Optimal stress
//          locations in finite element models, 1976.

#include <Eigen/Cholesky>
#include <Eigen/OrderingMethods>
#include <Eigen/SparseCholesky>
#include <algorithm>
#include <cmath>

#include "engine/strength/sawtooth.hpp"
#include "engine/strength/triangulation.hpp"

namespace pitchboard {
namespace {

using Element = std::array<int, 6>;
using Matrix3 = std::array<std::array<double, 3>, 3>;
using ElementMatrix = std::array<std::array<double, 12>, 12>;
using Sparse = Eigen::SparseMatrix<double>;
using Vector = Eigen::VectorXd;

constexpr double kLongitudinalOverTangential = 20.0, kLongitudinalOverShear = 16.0, kPoisson = 0.37;
/// Part of the lower edge left out at either end, where the supports' spread of the force shows.
constexpr double kEndShare = 0.125;

std::size_t index(int i) { return static_cast<std::size_t>(i); }
Spot spot(Point p) { return {p.a.raw(), p.b.raw()}; }

/// One element's edge on the outline: its ends and its middle.
struct OutlineEdge {
  int from = 0, to = 0, middle = 0;
};

/// Edges that only one element has, in the elements' order.
std::vector<OutlineEdge> outline_edges(const SawtoothMesh& mesh) {
  std::vector<int> uses(mesh.nodes.size(), 0);
  for (const Element& e : mesh.elements) {
    for (std::size_t i = 3; i < 6; ++i) ++uses[index(e[i])];
  }
  std::vector<OutlineEdge> out;
  for (const Element& e : mesh.elements) {
    for (std::size_t i = 0; i < 3; ++i) {
      if (uses[index(e[3 + i])] == 1) out.push_back({e[i], e[(i + 1) % 3], e[3 + i]});
    }
  }
  return out;
}

/// A stretch of the outline and how much each of its nodes counts in a mean over it; the weights sum to one.
struct Stretch {
  std::vector<OutlineEdge> edges;
  std::vector<std::pair<int, double>> weights;
};

/// RETURNS an empty stretch unless the mesh's outline covers all of it.
Stretch stretch(const SawtoothMesh& mesh, const std::vector<OutlineEdge>& outline, Point from, Point to) {
  const Spot start = spot(from), along = spot(to) - start;
  const double length = std::sqrt(square(along)), near = kTouch.raw() * 2.0;
  const auto on = [&](int node) {
    const Spot d = spot(mesh.nodes[index(node)]) - start;
    const double t = dot(d, along) / length;
    return std::abs(cross(d, along)) <= near * length && t >= -near && t <= length + near;
  };
  Stretch out;
  double covered = 0;
  if (!(length > near)) return out;
  for (const OutlineEdge& edge : outline) {
    if (!on(edge.from) || !on(edge.to)) continue;
    const double share = distance(mesh.nodes[index(edge.from)], mesh.nodes[index(edge.to)]).raw() / length;
    covered += share;
    out.edges.push_back(edge);
    out.weights.emplace_back(edge.from, share / 6.0);  // a quadratic edge's consistent shares, by Simpson's rule
    out.weights.emplace_back(edge.middle, share * 4.0 / 6.0);
    out.weights.emplace_back(edge.to, share / 6.0);
  }
  return std::abs(covered - 1.0) * length <= near * 2.0 ? out : Stretch{};
}

/// Stress from strain (xx, yy, 2xy) in the outline's axes.
Matrix3 stiffness(const PlaneWood& wood) {
  const double size = std::sqrt(wood.grain_a * wood.grain_a + wood.grain_b * wood.grain_b);
  const double c = wood.grain_a / size, s = wood.grain_b / size;
  const double nu_tl = wood.nu_lt * wood.e_t / wood.e_l, solid = 1.0 - wood.nu_lt * nu_tl;
  const Matrix3 q{{{wood.e_l / solid, wood.nu_lt * wood.e_t / solid, 0},
                   {wood.nu_lt * wood.e_t / solid, wood.e_t / solid, 0},
                   {0, 0, wood.g_lt}}};
  // Strains along the grain from those along the axes.
  const Matrix3 r{{{c * c, s * s, c * s}, {s * s, c * c, -c * s}, {-2 * c * s, 2 * c * s, c * c - s * s}}};
  Matrix3 out{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      for (std::size_t k = 0; k < 3; ++k) {
        for (std::size_t l = 0; l < 3; ++l) out[i][j] += r[k][i] * q[k][l] * r[l][j];
      }
    }
  }
  return out;
}

/// RETURNS E along the unit vector t, of wood that only carries stress along it.
double modulus_along(const PlaneWood& wood, Spot t) {
  const double grain = wood.grain_a * wood.grain_a + wood.grain_b * wood.grain_b;
  const double cc = std::pow(t.x * wood.grain_a + t.y * wood.grain_b, 2) / grain, ss = 1.0 - cc;
  return 1.0 / (cc * cc / wood.e_l + ss * ss / wood.e_t + cc * ss * (1.0 / wood.g_lt - 2.0 * wood.nu_lt / wood.e_l));
}

/// Sides are straight, so strain is linear over the element and three points integrate exactly.
ElementMatrix element_stiffness(const std::array<Spot, 3>& p, const Matrix3& d, double thickness) {
  ElementMatrix out{};
  const double twice = turn(p[0], p[1], p[2]);
  std::array<Spot, 3> slope{};  // of the area coordinates
  for (std::size_t i = 0; i < 3; ++i) {
    const Spot edge = p[(i + 2) % 3] - p[(i + 1) % 3];
    slope[i] = {-edge.y / twice, edge.x / twice};
  }
  for (std::size_t point = 0; point < 3; ++point) {
    std::array<double, 3> area{1.0 / 6.0, 1.0 / 6.0, 1.0 / 6.0};
    area[point] = 2.0 / 3.0;
    std::array<Spot, 6> n{};  // slopes of the shape functions
    for (std::size_t i = 0; i < 3; ++i) {
      const std::size_t j = (i + 1) % 3;
      n[i] = {slope[i].x * (4.0 * area[i] - 1.0), slope[i].y * (4.0 * area[i] - 1.0)};
      n[3 + i] = {4.0 * (slope[i].x * area[j] + slope[j].x * area[i]),
                  4.0 * (slope[i].y * area[j] + slope[j].y * area[i])};
    }
    const double weight = twice / 6.0 * thickness;
    for (std::size_t j = 0; j < 6; ++j) {
      std::array<double, 3> along_x{}, along_y{};  // D B, the columns of node j
      for (std::size_t k = 0; k < 3; ++k) {
        along_x[k] = weight * (d[k][0] * n[j].x + d[k][2] * n[j].y);
        along_y[k] = weight * (d[k][1] * n[j].y + d[k][2] * n[j].x);
      }
      for (std::size_t i = 0; i < 6; ++i) {
        out[2 * i][2 * j] += n[i].x * along_x[0] + n[i].y * along_x[2];
        out[2 * i + 1][2 * j] += n[i].y * along_x[1] + n[i].x * along_x[2];
        out[2 * i][2 * j + 1] += n[i].x * along_y[0] + n[i].y * along_y[2];
        out[2 * i + 1][2 * j + 1] += n[i].y * along_y[1] + n[i].x * along_y[2];
      }
    }
  }
  return out;
}

/// RETURNS where each node goes so that little fills in, ordered by nodes: half the graph that their components make.
std::vector<int> places(const SawtoothMesh& mesh, const std::vector<Stretch>& held) {
  std::vector<Eigen::Triplet<double, int>> entries;
  const auto join = [&](int i, int j) { entries.emplace_back(i, j, 1.0); };
  for (const Element& e : mesh.elements) {
    for (const int i : e) {
      for (const int j : e) join(i, j);
    }
  }
  for (const Stretch& s : held) {
    for (const auto& [i, unused_i] : s.weights) {
      for (const auto& [j, unused_j] : s.weights) join(i, j);
    }
  }
  const int n = static_cast<int>(mesh.nodes.size());
  Eigen::SparseMatrix<double> graph(n, n);
  graph.setFromTriplets(entries.begin(), entries.end());
  Eigen::AMDOrdering<int>::PermutationType order;
  Eigen::AMDOrdering<int>()(graph, order);
  std::vector<int> out(mesh.nodes.size());
  for (int i = 0; i < n; ++i) out[index(order.indices()[i])] = i;
  return out;
}

struct Solution {
  std::vector<Spot> moved;     ///< of each node
  std::vector<double> forces;  ///< of each support, along its direction
};

class Equations {
 public:
  Equations(const SawtoothModel& model, const SawtoothMesh& mesh, const std::vector<Stretch>& held)
      : model_(model), place_(places(mesh, held)), size_(2 * static_cast<Eigen::Index>(mesh.nodes.size())) {
    const Matrix3 d = stiffness(model.wood);
    load_ = Vector::Zero(size_);
    entries_.reserve(mesh.elements.size() * 78);
    for (const Element& e : mesh.elements) add_element(mesh, e, d);
    add_supports(held);
  }
  void add_load(const Stretch& s, double down) {
    for (const auto& [node, share] : s.weights) load_[row(node, 1)] -= down * share;
  }
  /// RETURNS nothing when something can still move freely.
  [[nodiscard]] std::optional<Solution> solve() const {
    Sparse a(size_, size_);
    a.setFromTriplets(entries_.begin(), entries_.end());
    const Eigen::SimplicialLLT<Sparse, Eigen::Lower, Eigen::NaturalOrdering<int>> factor(a);
    if (factor.info() != Eigen::Success) return {};
    Vector u = factor.solve(load_);
    const auto count = static_cast<Eigen::Index>(rows_.size());
    Eigen::MatrixXd answers(size_, count), schur(count, count);
    Vector gaps(count);
    for (Eigen::Index k = 0; k < count; ++k) {
      answers.col(k) = factor.solve(rows_[static_cast<std::size_t>(k)]);
      gaps[k] = rows_[static_cast<std::size_t>(k)].dot(u);
      for (Eigen::Index i = 0; i < count; ++i) schur(i, k) = rows_[static_cast<std::size_t>(i)].dot(answers.col(k));
    }
    const Eigen::LLT<Eigen::MatrixXd> small(schur);
    if (small.info() != Eigen::Success) return {};
    const Vector forces = small.solve(gaps);
    u -= answers * forces;
    Solution out;
    for (Eigen::Index k = 0; k < count; ++k) out.forces.push_back(-forces[k]);
    for (std::size_t i = 0; i < place_.size(); ++i) {
      out.moved.push_back({u[row(static_cast<int>(i), 0)], u[row(static_cast<int>(i), 1)]});
    }
    return out;
  }

 private:
  [[nodiscard]] int row(int node, int axis) const { return 2 * place_[index(node)] + axis; }

  void add_element(const SawtoothMesh& mesh, const Element& e, const Matrix3& d) {
    const std::array<Spot, 3> p{spot(mesh.nodes[index(e[0])]), spot(mesh.nodes[index(e[1])]),
                                spot(mesh.nodes[index(e[2])])};
    const ElementMatrix k = element_stiffness(p, d, model_.thickness);
    for (std::size_t i = 0; i < 12; ++i) {
      for (std::size_t j = 0; j < 12; ++j) {
        const int r = row(e[i / 2], static_cast<int>(i % 2)), c = row(e[j / 2], static_cast<int>(j % 2));
        if (r >= c) entries_.emplace_back(r, c, k[i][j]);
      }
    }
    // Of an even load over a six-node triangle a third goes to each middle, nothing to the corners.
    const double weight = turn(p[0], p[1], p[2]) / 2.0 * model_.thickness * model_.weight_per_cubic_inch;
    for (std::size_t i = 3; i < 6; ++i) load_[row(e[i], 1)] -= weight / 3.0;
  }
  void add_supports(const std::vector<Stretch>& held) {
    const double s = model_.wood.e_l * model_.thickness;
    for (std::size_t k = 0; k < held.size(); ++k) {
      const EdgeSupport& support = model_.supports[k];
      Vector c = Vector::Zero(size_);
      std::vector<int> used;
      for (const auto& [node, share] : held[k].weights) {
        for (const int axis : {0, 1}) {
          if (c[row(node, axis)] == 0) used.push_back(row(node, axis));
          c[row(node, axis)] += share * (axis == 0 ? support.nx : support.ny);
        }
      }
      std::ranges::sort(used);
      used.erase(std::unique(used.begin(), used.end()), used.end());
      for (const int i : used) {
        for (const int j : used) {
          if (i >= j) entries_.emplace_back(i, j, s * c[i] * c[j]);
        }
      }
      rows_.push_back(std::move(c));
    }
  }

  const SawtoothModel& model_;
  std::vector<int> place_;
  Eigen::Index size_;
  std::vector<Eigen::Triplet<double, int>> entries_;  ///< of A, its lower half
  std::vector<Vector> rows_;                          ///< of C
  Vector load_;
};

/// Whether the supports stop both shifts and the turn: their three rows have to be independent for some three supports.
bool held_fast(const SawtoothModel& model) {
  std::vector<std::array<double, 3>> rows;
  const Spot origin = spot(model.outline.front());
  for (const EdgeSupport& s : model.supports) {
    const Spot m = middle(spot(s.from), spot(s.to)) - origin;
    rows.push_back({s.nx, s.ny, m.x * s.ny - m.y * s.nx});
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      for (std::size_t k = 0; k < j; ++k) {
        const auto& [a, b, c] = rows[i];
        const auto& [d, e, f] = rows[j];
        const auto& [g, h, l] = rows[k];
        if (std::abs(a * (e * l - f * h) - b * (d * l - f * g) + c * (d * h - e * g)) > 1e-3) return true;
      }
    }
  }
  return false;
}

struct LowerEdge {
  Point from, to;
};

/// The longest edge of the outline with wood above it that no support lies on.
std::optional<LowerEdge> lower_edge(const SawtoothModel& model) {
  double twice_area = 0;
  const std::size_t n = model.outline.size();
  for (std::size_t i = 0; i < n; ++i) twice_area += cross(spot(model.outline[i]), spot(model.outline[(i + 1) % n]));
  std::optional<LowerEdge> out;
  for (std::size_t i = 0; i < n; ++i) {
    Point p = model.outline[i], q = model.outline[(i + 1) % n];
    if (twice_area < 0) std::swap(p, q);
    const bool below = q.a - p.a > kTouch;  // anticlockwise, wood lies to the left
    const bool bears = std::ranges::any_of(model.supports, [&](const EdgeSupport& s) {
      const Point m{(s.from.a + s.to.a) / 2.0, (s.from.b + s.to.b) / 2.0};
      return distance_to_outline({p, q}, m) < kTouch;
    });
    if (below && !bears && (!out || distance(p, q) > distance(out->from, out->to))) out = LowerEdge{p, q};
  }
  return out;
}

/// RETURNS the share of the lower edge below the middle between the outermost supports' middles.
double half_way(const SawtoothModel& model, const LowerEdge& line) {
  const auto middle_of = [](const EdgeSupport& s) { return (s.from.a + s.to.a) / 2.0; };
  Length least = middle_of(model.supports.front()), most = least;
  for (const EdgeSupport& s : model.supports) {
    least = std::min(least, middle_of(s));
    most = std::max(most, middle_of(s));
  }
  return std::clamp(((least + most) / 2.0 - line.from.a) / (line.to.a - line.from.a), 0.0, 1.0);
}

void read_lower_edge(const SawtoothModel& model, const SawtoothMesh& mesh, const Stretch& edge, const LowerEdge& line,
                     const std::vector<Spot>& moved, SawtoothResult& result) {
  const Spot start = spot(line.from), along = spot(line.to) - start;
  const double length = std::sqrt(square(along));
  const Spot t{along.x / length, along.y / length};
  const double modulus = modulus_along(model.wood, t), half = length * half_way(model, line);
  const double barlow = 1.0 / std::sqrt(3.0);
  for (const OutlineEdge& e : edge.edges) {
    const double from = dot(spot(mesh.nodes[index(e.from)]) - start, t), to = dot(spot(mesh.nodes[index(e.to)]) - start, t);
    const Spot u = moved[index(e.from)], m = moved[index(e.middle)], v = moved[index(e.to)];
    if (from <= half && half < to) {
      const double z = 2.0 * (half - from) / (to - from) - 1.0;
      const double nu = z * (z - 1.0) / 2.0, nm = 1.0 - z * z, nv = z * (z + 1.0) / 2.0;
      const Spot at{u.x * nu + m.x * nm + v.x * nv, u.y * nu + m.y * nm + v.y * nv};
      result.mid_down = -at.y;
      result.mid_normal = t.y * at.x - t.x * at.y;  // along the normal out of the wood, (t.y, -t.x)
    }
    for (const double z : {-barlow, barlow}) {
      const double place = from + (to - from) * (1.0 + z) / 2.0;
      if (place < length * kEndShare || place > length * (1.0 - kEndShare)) continue;
      const double strain =
          (dot(u, t) * (z - 0.5) - dot(m, t) * 2.0 * z + dot(v, t) * (z + 0.5)) * 2.0 / (to - from);
      if (std::abs(strain * modulus) > std::abs(result.bottom_stress)) result.bottom_stress = strain * modulus;
    }
  }
}

}  // namespace

PlaneWood plane_wood(double e_l, double grain_a, double grain_b) {
  return {e_l, e_l / kLongitudinalOverTangential, e_l / kLongitudinalOverShear, kPoisson, grain_a, grain_b};
}

std::optional<SawtoothResult> solve_sawtooth(const SawtoothModel& model, const SawtoothMesh& mesh) {
  if (mesh.elements.empty() || !(model.thickness > 0) || !held_fast(model)) return {};
  const PlaneWood& wood = model.wood;
  if (!(wood.e_l > 0 && wood.e_t > 0 && wood.g_lt > 0 && wood.nu_lt * wood.nu_lt * wood.e_t < wood.e_l)) return {};
  const std::vector<OutlineEdge> outline = outline_edges(mesh);
  std::vector<Stretch> held;
  for (const EdgeSupport& support : model.supports) {
    held.push_back(stretch(mesh, outline, support.from, support.to));
    if (held.back().edges.empty()) return {};
  }
  Equations equations(model, mesh, held);
  for (const EdgeLoad& load : model.loads) {
    const Stretch loaded = stretch(mesh, outline, load.from, load.to);
    if (loaded.edges.empty()) return {};
    equations.add_load(loaded, load.down);
  }
  const std::optional<LowerEdge> line = lower_edge(model);
  if (!line) return {};
  const std::optional<Solution> solution = equations.solve();
  if (!solution) return {};
  SawtoothResult result;
  result.nodes = static_cast<int>(mesh.nodes.size());
  result.elements = static_cast<int>(mesh.elements.size());
  for (std::size_t k = 0; k < held.size(); ++k) result.reactions_down += solution->forces[k] * model.supports[k].ny;
  read_lower_edge(model, mesh, stretch(mesh, outline, line->from, line->to), *line, solution->moved, result);
  return result;
}

}  // namespace pitchboard
