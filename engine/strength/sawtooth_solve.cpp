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

#include "engine/base/sort.hpp"
#include "engine/base/triangulation.hpp"
#include "engine/strength/sawtooth_reading.hpp"

namespace pitchboard {
namespace {

using Element = std::array<int, 6>;
using Matrix3 = std::array<std::array<double, 3>, 3>;
using ElementMatrix = std::array<std::array<double, 12>, 12>;
using Sparse = Eigen::SparseMatrix<double>;
using Vector = Eigen::VectorXd;

constexpr double kLongitudinalOverTangential = 20.0, kLongitudinalOverShear = 16.0, kPoisson = 0.37;
/// Supports count as one held twice below this reciprocal condition of their equations.
constexpr double kAlike = 1e-10;
std::size_t index(int i) { return static_cast<std::size_t>(i); }
Spot spot(Point p) { return {p.a.raw(), p.b.raw()}; }

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
    // Consistent shares of a quadratic edge with its middle node at (1 + shift) / 2: Simpson's rule if that is 0.
    const double shift =
        2 * distance(mesh.nodes[index(edge.from)], mesh.nodes[index(edge.middle)]).raw() / (share * length) - 1;
    out.weights.emplace_back(edge.from, share * (1.0 / 6.0 + shift / 3.0));
    out.weights.emplace_back(edge.middle, share * 4.0 / 6.0);
    out.weights.emplace_back(edge.to, share * (1.0 / 6.0 - shift / 3.0));
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

/// A place in an element where its integrals are summed: area coordinates and weight.
struct Quadrature {
  std::array<double, 3> area{};
  double weight = 0;
};
/// SOURCE G. R. Cowper, Gaussian quadrature formulas for triangles, 1973. Exact to the second degree.
constexpr std::array<Quadrature, 3> kThreePoints{{{{2.0 / 3.0, 1.0 / 6.0, 1.0 / 6.0}, 1.0 / 3.0},
                                                  {{1.0 / 6.0, 2.0 / 3.0, 1.0 / 6.0}, 1.0 / 3.0},
                                                  {{1.0 / 6.0, 1.0 / 6.0, 2.0 / 3.0}, 1.0 / 3.0}}};

struct ElementSums {
  ElementMatrix stiffness{};
  std::array<double, 6> share{};  ///< of the area, by node
};

ElementSums element_sums(const std::array<Spot, 6>& p, const Matrix3& d, double thickness) {
  ElementSums out;
  for (const Quadrature& point : kThreePoints) {
    const std::array<double, 3>& area = point.area;
    std::array<double, 6> value{};
    std::array<Spot, 6> n{};  // slopes by the first and second area coordinate
    constexpr std::array<Spot, 3> kSlope{{{1, 0}, {0, 1}, {-1, -1}}};
    for (std::size_t i = 0; i < 3; ++i) {
      const std::size_t j = (i + 1) % 3;
      value[i] = area[i] * (2.0 * area[i] - 1.0);
      value[3 + i] = 4.0 * area[i] * area[j];
      n[i] = {kSlope[i].x * (4.0 * area[i] - 1.0), kSlope[i].y * (4.0 * area[i] - 1.0)};
      n[3 + i] = {4.0 * (kSlope[i].x * area[j] + kSlope[j].x * area[i]),
                  4.0 * (kSlope[i].y * area[j] + kSlope[j].y * area[i])};
    }
    double xr = 0, yr = 0, xs = 0, ys = 0;
    for (std::size_t i = 0; i < 6; ++i) {
      xr += n[i].x * p[i].x;
      yr += n[i].x * p[i].y;
      xs += n[i].y * p[i].x;
      ys += n[i].y * p[i].y;
    }
    const double jacobian = xr * ys - xs * yr, weight = point.weight * jacobian / 2.0 * thickness;
    for (Spot& slope : n) slope = {(slope.x * ys - slope.y * yr) / jacobian, (slope.y * xr - slope.x * xs) / jacobian};
    for (std::size_t i = 0; i < 6; ++i) out.share[i] += value[i] * weight;
    for (std::size_t j = 0; j < 6; ++j) {
      std::array<double, 3> along_x{}, along_y{};  // D B, the columns of node j
      for (std::size_t k = 0; k < 3; ++k) {
        along_x[k] = weight * (d[k][0] * n[j].x + d[k][2] * n[j].y);
        along_y[k] = weight * (d[k][1] * n[j].y + d[k][2] * n[j].x);
      }
      for (std::size_t i = 0; i < 6; ++i) {
        out.stiffness[2 * i][2 * j] += n[i].x * along_x[0] + n[i].y * along_x[2];
        out.stiffness[2 * i + 1][2 * j] += n[i].y * along_x[1] + n[i].x * along_x[2];
        out.stiffness[2 * i][2 * j + 1] += n[i].x * along_y[0] + n[i].y * along_y[2];
        out.stiffness[2 * i + 1][2 * j + 1] += n[i].y * along_y[1] + n[i].x * along_y[2];
      }
    }
  }
  return out;
}

/// For each node the nodes that share an element or a support with it, itself among them, ascending.
struct Graph {
  std::vector<int> start, neighbour;  ///< node i's are neighbour[start[i]] to neighbour[start[i + 1] - 1]
};

Graph graph_of(const SawtoothMesh& mesh, const std::vector<Stretch>& held) {
  std::vector<std::vector<int>> cliques;  // of supports; the elements are cliques themselves
  for (const Stretch& s : held) {
    std::vector<int>& nodes = cliques.emplace_back();
    for (const auto& [node, share] : s.weights) nodes.push_back(node);
  }
  Graph out{std::vector<int>(mesh.nodes.size() + 1, 0), {}};
  const auto count = [&](const auto& clique) {
    for (const int i : clique) out.start[index(i) + 1] += static_cast<int>(clique.size());
  };
  std::ranges::for_each(mesh.elements, count);
  std::ranges::for_each(cliques, count);
  for (std::size_t i = 0; i < mesh.nodes.size(); ++i) out.start[i + 1] += out.start[i];
  out.neighbour.resize(index(out.start.back()));
  std::vector<int> end(out.start.begin(), out.start.end() - 1);
  const auto fill = [&](const auto& clique) {
    for (const int i : clique) {
      for (const int j : clique) out.neighbour[index(end[index(i)]++)] = j;
    }
  };
  std::ranges::for_each(mesh.elements, fill);
  std::ranges::for_each(cliques, fill);
  auto write = out.neighbour.begin();
  for (std::size_t i = 0; i < mesh.nodes.size(); ++i) {
    const auto from = out.neighbour.begin() + out.start[i], to = out.neighbour.begin() + out.start[i + 1];
    std::sort(from, to);
    out.start[i] = static_cast<int>(write - out.neighbour.begin());
    write = std::unique_copy(from, to, write);
  }
  out.start.back() = static_cast<int>(write - out.neighbour.begin());
  out.neighbour.erase(write, out.neighbour.end());
  return out;
}

/// RETURNS each node's place in an order of elimination that fills in little. By nodes: that is a quarter of the work
/// of ordering by displacements.
std::vector<int> places(const Graph& graph) {
  const auto n = static_cast<Eigen::Index>(graph.start.size()) - 1;
  const std::vector<double> ones(graph.neighbour.size(), 1.0);
  const Eigen::Map<const Sparse> pattern(n, n, static_cast<Eigen::Index>(ones.size()), graph.start.data(),
                                         graph.neighbour.data(), ones.data());
  Eigen::AMDOrdering<int>::PermutationType order;
  Eigen::AMDOrdering<int>()(pattern.selfadjointView<Eigen::Lower>(), order);
  std::vector<int> out(static_cast<std::size_t>(n));
  for (int i = 0; i < n; ++i) out[index(order.indices()[i])] = i;
  return out;
}

/// The upper half of A, two rows and columns a node, in the order of elimination.
class UpperHalf {
 public:
  UpperHalf(const Graph& graph, const std::vector<int>& place)
      : matrix_(size(place), size(place)), before_(place.size()) {
    for (std::size_t i = 0; i < place.size(); ++i) {
      std::vector<int>& column = before_[index(place[i])];
      for (int k = graph.start[i]; k < graph.start[i + 1]; ++k) {
        const int j = place[index(graph.neighbour[index(k)])];
        if (j <= place[i]) column.push_back(j);
      }
      sort_stably(column);
    }
    Eigen::Index entries = 0;
    for (const std::vector<int>& column : before_) entries += 4 * static_cast<Eigen::Index>(column.size()) - 1;
    matrix_.resizeNonZeros(entries);
    std::fill_n(matrix_.valuePtr(), entries, 0.0);
    int* row = matrix_.innerIndexPtr();
    for (std::size_t i = 0; i < before_.size(); ++i) {
      for (const int axis : {0, 1}) {
        matrix_.outerIndexPtr()[2 * i + index(axis)] = static_cast<int>(row - matrix_.innerIndexPtr());
        for (const int j : before_[i]) {
          *row++ = 2 * j;
          if (index(j) < i || axis == 1) *row++ = 2 * j + 1;
        }
      }
    }
    matrix_.outerIndexPtr()[2 * before_.size()] = static_cast<int>(entries);
  }
  /// REQUIRES both nodes to share an element or a support. What is below the diagonal is left out.
  void add(int row, int column, double value) {
    if (row > column) return;
    const std::vector<int>& nodes = before_[index(column / 2)];
    const auto k = std::ranges::lower_bound(nodes, row / 2) - nodes.begin();
    matrix_.valuePtr()[matrix_.outerIndexPtr()[column] + 2 * k + row % 2] += value;
  }
  [[nodiscard]] const Sparse& matrix() const { return matrix_; }

 private:
  static Eigen::Index size(const std::vector<int>& place) { return 2 * static_cast<Eigen::Index>(place.size()); }
  Sparse matrix_;
  std::vector<std::vector<int>> before_;  ///< per node, its neighbours that are not after it
};

/// The factor of a matrix that is in its final order already: `compute` would copy and order it once more.
class Factor : public Eigen::SimplicialLLT<Sparse, Eigen::Upper, Eigen::NaturalOrdering<int>> {
 public:
  explicit Factor(const Sparse& upper_half) {
    analyzePattern_preordered(upper_half, false);
    factorize_preordered<false>(upper_half);
  }
};

class Equations {
 public:
  Equations(const SawtoothModel& model, const SawtoothMesh& mesh, const std::vector<Stretch>& held)
      : Equations(model, mesh, held, graph_of(mesh, held)) {}
  /// RETURNS the own weight, to which the loads are added.
  [[nodiscard]] const Vector& weight() const { return weight_; }
  void add_load(Vector& load, const Stretch& s, double down) const {
    for (const auto& [node, share] : s.weights) load[row(node, 1)] -= down * share;
  }
  /// RETURNS what each load does; nothing when something can still move freely, or two supports say the same.
  [[nodiscard]] std::vector<PlateSolution> solve(const std::vector<Vector>& loads) const {
    const Factor factor(a_.matrix());
    if (factor.info() != Eigen::Success) return {};
    const auto count = static_cast<Eigen::Index>(rows_.size());
    std::vector<Vector> answers;
    Eigen::MatrixXd schur(count, count);
    for (Eigen::Index k = 0; k < count; ++k) {
      Vector right = Vector::Zero(weight_.size());
      for (const auto& [i, value] : rows_[static_cast<std::size_t>(k)]) right[i] += value;
      answers.push_back(factor.solve(right));
      for (Eigen::Index i = 0; i < count; ++i) schur(i, k) = times(rows_[static_cast<std::size_t>(i)], answers.back());
    }
    const Eigen::LLT<Eigen::MatrixXd> small(schur);
    if (small.info() != Eigen::Success || small.rcond() < kAlike) return {};
    std::vector<PlateSolution> out;
    for (const Vector& load : loads) {
      Vector u = factor.solve(load), forces(count);
      for (Eigen::Index k = 0; k < count; ++k) forces[k] = times(rows_[static_cast<std::size_t>(k)], u);
      small.solveInPlace(forces);
      PlateSolution& solution = out.emplace_back();
      for (Eigen::Index k = 0; k < count; ++k) {
        u -= forces[k] * answers[static_cast<std::size_t>(k)];
        solution.forces.push_back(-forces[k]);
      }
      for (std::size_t i = 0; i < place_.size(); ++i) {
        solution.moved.push_back({u[row(static_cast<int>(i), 0)], u[row(static_cast<int>(i), 1)]});
      }
    }
    return out;
  }

 private:
  using Row = std::vector<std::pair<int, double>>;

  Equations(const SawtoothModel& model, const SawtoothMesh& mesh, const std::vector<Stretch>& held, const Graph& graph)
      : model_(model),
        place_(places(graph)),
        a_(graph, place_),
        weight_(Vector::Zero(2 * static_cast<Eigen::Index>(mesh.nodes.size()))) {
    const Matrix3 d = stiffness(model.wood);
    for (const Element& e : mesh.elements) add_element(mesh, e, d);
    for (std::size_t k = 0; k < held.size(); ++k) add_support(held[k], model.supports[k]);
  }
  static double times(const Row& row, const Vector& u) {
    double sum = 0;
    for (const auto& [i, value] : row) sum += value * u[i];
    return sum;
  }
  [[nodiscard]] int row(int node, int axis) const { return 2 * place_[index(node)] + axis; }

  void add_element(const SawtoothMesh& mesh, const Element& e, const Matrix3& d) {
    std::array<Spot, 6> p{};
    for (std::size_t i = 0; i < 6; ++i) p[i] = spot(mesh.nodes[index(e[i])]);
    const ElementSums sums = element_sums(p, d, model_.thickness);
    for (std::size_t i = 0; i < 12; ++i) {
      for (std::size_t j = 0; j < 12; ++j) {
        a_.add(row(e[i / 2], static_cast<int>(i % 2)), row(e[j / 2], static_cast<int>(j % 2)), sums.stiffness[i][j]);
      }
    }
    for (std::size_t i = 0; i < 6; ++i) weight_[row(e[i], 1)] -= sums.share[i] * model_.weight_per_cubic_inch;
  }
  void add_support(const Stretch& stretch, const EdgeSupport& support) {
    const double s = model_.wood.e_l * model_.thickness;
    Row c;
    for (const auto& [node, share] : stretch.weights) {
      if (support.nx != 0) c.emplace_back(row(node, 0), share * support.nx);
      if (support.ny != 0) c.emplace_back(row(node, 1), share * support.ny);
    }
    for (const auto& [i, left] : c) {
      for (const auto& [j, right] : c) a_.add(i, j, s * left * right);
    }
    rows_.push_back(std::move(c));
  }

  const SawtoothModel& model_;
  std::vector<int> place_;
  UpperHalf a_;
  std::vector<Row> rows_;  ///< of C; a node at two edges' common end has two entries
  Vector weight_;
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

}  // namespace

PlaneWood plane_wood(double e_l, double grain_a, double grain_b) {
  return {e_l, e_l / kLongitudinalOverTangential, e_l / kLongitudinalOverShear, kPoisson, grain_a, grain_b};
}

std::vector<SawtoothResult> solve_sawtooth(const SawtoothModel& model, const SawtoothMesh& mesh,
                                           std::span<const std::vector<EdgeLoad>> cases) {
  if (mesh.elements.empty() || !(model.thickness > 0) || !held_fast(model)) return {};
  const PlaneWood& wood = model.wood;
  if (!(wood.e_l > 0 && wood.e_t > 0 && wood.g_lt > 0 && wood.nu_lt * wood.nu_lt * wood.e_t < wood.e_l)) return {};
  const std::vector<OutlineEdge> outline = outline_edges(mesh);
  std::vector<Stretch> held;
  for (const EdgeSupport& support : model.supports) {
    held.push_back(stretch(mesh, outline, support.from, support.to));
    if (held.back().edges.empty()) return {};
  }
  const std::optional<LowerEdge> line = lower_edge(model);
  if (!line) return {};
  const Equations equations(model, mesh, held);
  std::vector<Vector> loads;
  for (const std::vector<EdgeLoad>& loaded : cases) {
    loads.push_back(equations.weight());
    for (const EdgeLoad& load : loaded) {
      const Stretch edge = stretch(mesh, outline, load.from, load.to);
      if (edge.edges.empty()) return {};
      equations.add_load(loads.back(), edge, load.down);
    }
  }
  const std::vector<OutlineEdge> below = stretch(mesh, outline, line->from, line->to).edges;
  std::vector<SawtoothResult> out;
  for (const PlateSolution& solution : equations.solve(loads)) {
    out.push_back(read_plate(model, cases[out.size()], mesh, below, *line, solution));
  }
  return out;
}

std::optional<SawtoothResult> solve_sawtooth(const SawtoothModel& model, const SawtoothMesh& mesh) {
  const std::vector<SawtoothResult> results = solve_sawtooth(model, mesh, std::span(&model.loads, 1));
  if (results.empty()) return {};
  return results.front();
}

}  // namespace pitchboard
