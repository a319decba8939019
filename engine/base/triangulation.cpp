#include "engine/base/triangulation.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

namespace pitchboard {
namespace {

constexpr int next(int side) { return side == 2 ? 0 : side + 1; }
constexpr int previous(int side) { return side == 0 ? 2 : side - 1; }
constexpr std::size_t index(int i) { return static_cast<std::size_t>(i); }

/// Four points count as on one circle when the test is this small against the fourth power of their distances: else
/// rounding could flip a side for ever.
constexpr double kOneCircle = 1e-12;

bool holds(Spot a, Spot b, Spot c, Spot p) { return turn(a, b, p) >= 0 && turn(b, c, p) >= 0 && turn(c, a, p) >= 0; }

}  // namespace

Triangulation::Triangulation(std::vector<Spot> polygon) : points_(std::move(polygon)) {
  if (!clip_ears()) {
    triangles_.clear();
    return;
  }
  seen_.assign(triangles_.size(), 0);
  // Each flip makes the triangulation more Delaunay, so the rounds end.
  for (bool flipped = true; flipped;) {
    flipped = false;
    for (int t = 0; t < static_cast<int>(triangles_.size()); ++t) {
      for (int i = 0; i < 3; ++i) {
        Triangle& triangle = mutable_triangle(t);
        std::rotate(triangle.corner.begin(), triangle.corner.begin() + 1, triangle.corner.end());
        std::rotate(triangle.beside.begin(), triangle.beside.begin() + 1, triangle.beside.end());
        flipped = flip(t) || flipped;
      }
    }
  }
  pending_.clear();
}

bool Triangulation::clip_ears() {
  std::vector<int> ring(points_.size());
  std::iota(ring.begin(), ring.end(), 0);
  const auto is_ear = [&](std::size_t i) {
    const std::size_t n = ring.size();
    const int before = ring[(i + n - 1) % n], here = ring[i], after = ring[(i + 1) % n];
    const Spot a = at(before), b = at(here), c = at(after);
    if (turn(a, b, c) <= 0) return false;
    for (const int other : ring) {
      if (other != before && other != here && other != after && holds(a, b, c, at(other))) return false;
    }
    return true;
  };
  while (ring.size() >= 3) {
    std::size_t ear = 0;
    while (ear < ring.size() && !is_ear(ear)) ++ear;
    if (ear == ring.size()) return false;
    const std::size_t n = ring.size();
    triangles_.push_back({{ring[(ear + n - 1) % n], ring[ear], ring[(ear + 1) % n]}, {kOutline, kOutline, kOutline}});
    ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(ear));
  }
  for (std::size_t t = 0; t < triangles_.size(); ++t) {
    for (std::size_t u = 0; u < t; ++u) {
      for (int i = 0; i < 3; ++i) {
        for (int j = 0; j < 3; ++j) {
          Triangle &one = triangles_[t], &two = triangles_[u];
          if (one.corner[index(i)] != two.corner[index(next(j))] || one.corner[index(next(i))] != two.corner[index(j)])
            continue;
          one.beside[index(i)] = static_cast<int>(u);
          two.beside[index(j)] = static_cast<int>(t);
        }
      }
    }
  }
  return true;
}

Triangulation::Side Triangulation::outline_side(int from, int to) const {
  for (int t = 0; t < static_cast<int>(triangles_.size()); ++t) {
    for (int i = 0; i < 3; ++i) {
      const Triangle& triangle = triangles_[index(t)];
      if (triangle.corner[index(i)] == from && triangle.corner[index(next(i))] == to) return {t, i};
    }
  }
  return {};
}

bool Triangulation::in_circle(const Triangle& triangle, Spot p) const {
  const Spot a = at(triangle.corner[0]) - p, b = at(triangle.corner[1]) - p, c = at(triangle.corner[2]) - p;
  const double aa = square(a), bb = square(b), cc = square(c);
  const double scale = aa + bb + cc;
  return aa * cross(b, c) + bb * cross(c, a) + cc * cross(a, b) > kOneCircle * scale * scale;
}

void Triangulation::relink(int t, int was, int now) {
  if (t == kOutline) return;
  for (int& beside : mutable_triangle(t).beside) {
    if (beside == was) {
      beside = now;
      return;
    }
  }
}

bool Triangulation::flip(int t) {
  // t = (p, a, b) and u = (b, a, d) become (p, a, d) and (p, d, b).
  const Triangle one = triangle(t);
  const int u = one.beside[1];
  if (u == kOutline) return false;
  const Triangle two = triangle(u);
  const int p = one.corner[0], a = one.corner[1], b = one.corner[2];
  int k = 0;
  while (two.corner[index(k)] != b) k = next(k);
  const int d = two.corner[index(previous(k))];
  if (!in_circle(two, at(p)) || turn(at(p), at(a), at(d)) <= 0 || turn(at(p), at(d), at(b)) <= 0) return false;
  const int beyond_ad = two.beside[index(next(k))], beyond_db = two.beside[index(previous(k))];
  mutable_triangle(t) = {{p, a, d}, {one.beside[0], beyond_ad, u}};
  mutable_triangle(u) = {{p, d, b}, {t, beyond_db, one.beside[2]}};
  relink(beyond_ad, u, t);
  relink(one.beside[2], t, u);
  pending_.push_back(t);
  pending_.push_back(u);
  return true;
}

/// Every pending triangle has the new point as its corner 0.
void Triangulation::settle() {
  changed_ = pending_;
  while (!pending_.empty()) {
    const int t = pending_.back();
    pending_.pop_back();
    if (flip(t)) {
      changed_.push_back(pending_[pending_.size() - 1]);
      changed_.push_back(pending_[pending_.size() - 2]);
    }
  }
}

int Triangulation::insert(int t, Spot spot) {
  const int p = static_cast<int>(points_.size()), u = static_cast<int>(triangles_.size()), v = u + 1;
  points_.push_back(spot);
  const Triangle old = triangle(t);
  const auto [a, b, c] = old.corner;
  mutable_triangle(t) = {{p, a, b}, {v, old.beside[0], u}};
  triangles_.push_back({{p, b, c}, {t, old.beside[1], v}});
  triangles_.push_back({{p, c, a}, {u, old.beside[2], t}});
  relink(old.beside[1], t, u);
  relink(old.beside[2], t, v);
  seen_.resize(triangles_.size(), 0);
  pending_ = {t, u, v};
  settle();
  return p;
}

int Triangulation::split(Side side, Spot spot) {
  const int p = static_cast<int>(points_.size()), t = side.triangle, u = static_cast<int>(triangles_.size());
  points_.push_back(spot);
  const Triangle old = triangle(t);
  const int i = side.side;
  const int a = old.corner[index(i)], b = old.corner[index(next(i))], c = old.corner[index(previous(i))];
  const int beyond_bc = old.beside[index(next(i))], beyond_ca = old.beside[index(previous(i))];
  mutable_triangle(t) = {{p, c, a}, {u, beyond_ca, kOutline}};
  triangles_.push_back({{p, b, c}, {kOutline, beyond_bc, t}});
  relink(beyond_bc, t, u);
  seen_.resize(triangles_.size(), 0);
  pending_ = {t, u};
  settle();
  return p;
}

Triangulation::Way Triangulation::way_to(int from, Spot p) {
  const Triangle& first = triangle(from);
  const Spot a = at(first.corner[0]), b = at(first.corner[1]), c = at(first.corner[2]);
  const Spot start{(a.x + b.x + c.x) / 3.0, (a.y + b.y + c.y) / 3.0};
  int t = from, came_from = kOutline;
  for (std::size_t step = 0; step < triangles_.size(); ++step) {
    const Triangle& here = triangle(t);
    int out = -1;
    for (int i = 0; i < 3; ++i) {
      const Spot q = at(here.corner[index(i)]), r = at(here.corner[index(next(i))]);
      if (turn(q, r, p) >= 0 || (t != from && here.beside[index(i)] == came_from)) continue;
      if (turn(start, p, q) <= 0 && turn(start, p, r) >= 0) out = i;
    }
    if (out < 0) break;
    const int beyond = here.beside[index(out)];
    if (beyond == kOutline) return {{}, Side{t, out}};
    came_from = t;
    t = beyond;
  }
  const Triangle& last = triangle(t);
  if (!holds(at(last.corner[0]), at(last.corner[1]), at(last.corner[2]), p)) return {};
  // The sides of the outline that the point would see, and whether it falls in the circle over one of them.
  ++search_;
  pending_ = {t};
  seen_[index(t)] = search_;
  std::optional<Side> blocked;
  for (std::size_t i = 0; i < pending_.size() && !blocked; ++i) {
    for (int side = 0; side < 3 && !blocked; ++side) {
      const Triangle& here = triangle(pending_[i]);
      const int beyond = here.beside[index(side)];
      if (beyond == kOutline) {
        const Spot q = at(here.corner[index(side)]), r = at(here.corner[index(next(side))]);
        if (dot(q - p, r - p) < 0) blocked = Side{pending_[i], side};
      } else if (seen_[index(beyond)] != search_ && in_circle(triangle(beyond), p)) {
        seen_[index(beyond)] = search_;
        pending_.push_back(beyond);
      }
    }
  }
  pending_.clear();
  return {t, blocked};
}

}  // namespace pitchboard
