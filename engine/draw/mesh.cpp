#include "engine/draw/mesh.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/base/triangulation.hpp"

namespace pitchboard {
namespace {

Point3 in_space(Axis normal, Point p, Length at) {
  switch (normal) {
    case Axis::x:
      return {at, p.a, p.b};
    case Axis::y:
      return {p.a, at, p.b};
    case Axis::z:
      break;
  }
  return {p.a, p.b, at};
}

/// The mean of the fan's normals, each by its area: right for concave faces too.
Direction normal_of(const std::vector<Point3>& corners) {
  Direction sum;
  for (std::size_t i = 1; i + 1 < corners.size(); ++i) {
    const Point3 p = corners[i] - corners[0], q = corners[i + 1] - corners[0];
    sum.x += p.y.raw() * q.z.raw() - p.z.raw() * q.y.raw();
    sum.y += p.z.raw() * q.x.raw() - p.x.raw() * q.z.raw();
    sum.z += p.x.raw() * q.y.raw() - p.y.raw() * q.x.raw();
  }
  const double size = std::sqrt(sum.x * sum.x + sum.y * sum.y + sum.z * sum.z);
  return {sum.x / size, sum.y / size, sum.z / size};
}

}  // namespace

void add_face(Mesh& mesh, const std::vector<Point3>& corners, const std::vector<std::array<int, 3>>& triangles) {
  const std::size_t first = mesh.corners.size();
  mesh.corners.insert(mesh.corners.end(), corners.begin(), corners.end());
  mesh.normals.resize(mesh.corners.size(), normal_of(corners));
  for (const auto& triangle : triangles) {
    for (const int corner : triangle)
      mesh.triangles.push_back(static_cast<std::uint32_t>(first) + static_cast<std::uint32_t>(corner));
  }
}

void add_prism(Mesh& mesh, const Prism& prism) {
  Polygon outline = prism.outline;
  if (!runs_anticlockwise(outline)) std::ranges::reverse(outline);
  // (x, z) is left-handed seen along y: there the outline runs anticlockwise seen from the near face.
  const auto [back, front] = prism.normal == Axis::y ? Interval{prism.span.to, prism.span.from} : prism.span;
  std::vector<Spot> flat;
  std::vector<Point3> far, near;
  for (const Point p : outline) {
    flat.push_back({p.a.raw(), p.b.raw()});
    far.push_back(in_space(prism.normal, p, back));
    near.push_back(in_space(prism.normal, p, front));
  }
  std::vector<std::array<int, 3>> cut;
  const Triangulation triangulation(std::move(flat));
  for (const Triangulation::Triangle& triangle : triangulation.triangles()) cut.push_back(triangle.corner);
  add_face(mesh, near, cut);
  const int last = static_cast<int>(outline.size()) - 1;
  for (auto& triangle : cut) triangle = {last - triangle[2], last - triangle[1], last - triangle[0]};
  add_face(mesh, {far.rbegin(), far.rend()}, cut);
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const std::size_t j = (i + 1) % outline.size();
    add_face(mesh, {far[i], far[j], near[j], near[i]}, {{0, 1, 2}, {0, 2, 3}});
  }
}

}  // namespace pitchboard
