#include "engine/draw/model.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <tuple>
#include <vector>

#include "engine/base/canonical.hpp"
#include "engine/base/catalog.hpp"
#include "engine/draw/mesh.hpp"
#include "engine/draw/parts.hpp"
#include "engine/job/words.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;

// ---------------------------------------------------------------------------------------------------------- materials

struct Material {
  const char* name;
  std::uint32_t colour;  ///< sRGB
  double metallic, roughness;
};
/// Wood is darker where it carries, lighter where a hand lies on it.
constexpr Material kHeartwood[] = {{"heartwood, framing", 0x9A5B33, 0, 0.85},
                                   {"heartwood, treads", 0xB36B3C, 0, 0.8},
                                   {"heartwood, rails", 0xC27F52, 0, 0.75}};
/// Copper leaves wood olive and tan.
constexpr Material kTreated[] = {{"treated wood, framing", 0x9A8458, 0, 0.85},
                                 {"treated wood, treads", 0xAE976A, 0, 0.8},
                                 {"treated wood, rails", 0xBAA57C, 0, 0.75}};
constexpr Material kWeathered{"weathered wood", 0x9AA39B, 0, 0.9}, kConcrete{"concrete", 0xB9B7B0, 0, 0.95},
    kPavers{"pavers", 0xA0796A, 0, 0.9}, kSand{"sand", 0xCDBB8F, 0, 1}, kGravel{"gravel", 0xA29E96, 0, 1},
    kEarth{"earth", 0x8B7D6B, 0, 1};
/// Half metallic: a viewer without surroundings to mirror would show full metal black.
constexpr Material kMetal{"metal", 0xA8AEB3, 0.5, 0.5};

const Material& wood_of(const Part& part) {
  const TreatmentRow* treatment = find_treatment(part.treatment);
  const auto& tones = treatment && treatment->corrosive ? kTreated : kHeartwood;
  switch (part.kind) {
    case PartKind::tread:
      return tones[1];
    case PartKind::post:
    case PartKind::top_rail:
    case PartKind::bottom_rail:
    case PartKind::cap:
    case PartKind::handrail:
    case PartKind::baluster:
      return tones[2];
    default:
      return tones[0];
  }
}

const Material& material_of(const Part& part) {
  const std::string& made_of = part.section.nominal;
  if (part.kind == PartKind::connector) return kMetal;
  if (part.kind == PartKind::footing) return kConcrete;
  if (part.kind == PartKind::existing) return is_ground(part) ? kConcrete : kWeathered;
  if (part.kind != PartKind::pad_layer) return wood_of(part);
  return made_of == "concrete" ? kConcrete : made_of == "pavers" ? kPavers : made_of == "sand" ? kSand : kGravel;
}

/// SOURCE IEC 61966-2-1:1999, sRGB to linear light.
double linear_light(std::uint32_t byte) {
  const double v = byte / 255.0;
  return canonical(v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4));
}

// ---------------------------------------------------------------------------------------------------------- fasteners

/// An upright bar round the axis with 6 or 12 sides.
Prism bar(Length radius, Interval span, std::size_t sides) {
  constexpr double kRoot = 0.86602540378443865;  // half the root of 3
  constexpr double kRound[12][2] = {{1, 0},  {kRoot, 0.5},   {0.5, kRoot},   {0, 1},  {-0.5, kRoot}, {-kRoot, 0.5},
                                    {-1, 0}, {-kRoot, -0.5}, {-0.5, -kRoot}, {0, -1}, {0.5, -kRoot}, {kRoot, -0.5}};
  Prism out{Axis::z, span, {}};
  for (std::size_t i = 0; i < 12; i += 12 / sides)
    out.outline.push_back({radius * kRound[i][0], radius * kRound[i][1]});
  return out;
}

/// In diameters: a hexagon's corner from the axis, a nut's height, a washer's thickness. SOURCE ASME B18.2.1 and
/// B18.2.2 (1 1/2 diameters across flats, 7/8 high) and ASME B18.21.1 type A plain washers, all from memory.
constexpr double kHexagon = 0.866, kNut = 0.875, kWasher = 0.22;
/// A head that is driven flush is drawn this proud of the wood, to be seen.
constexpr Length kProud = inches(1.0 / 64.0);

/// The fastener upright, tip up, the face under its head at 0.
Mesh mesh_of(const Fastener& f) {
  const HardwareRow* row = find_hardware(f.item);
  const bool hexagonal = row && row->kind != "screw" && row->kind != "spike";
  const Length washer = hexagonal ? f.diameter * kWasher : std::max(f.head_height, kProud);
  Mesh mesh;
  add_prism(mesh, bar(f.diameter / 2.0, {Length(), f.length}, 6));
  add_prism(mesh, bar(f.head_radius, {-washer, Length()}, 12));
  if (hexagonal) add_prism(mesh, bar(f.diameter * kHexagon, {-f.head_height, -washer}, 6));
  return mesh;
}

Mesh nut_of(const Fastener& f) {
  const Length washer = f.diameter * kWasher;
  Mesh mesh;
  add_prism(mesh, bar(f.nut_radius, {Length(), washer}, 12));
  add_prism(mesh, bar(f.diameter * kHexagon, {washer, washer + f.diameter * kNut}, 6));
  return mesh;
}

/// RETURNS the quaternion that turns up into the direction, the short way.
json turn_from_up(Direction d) {
  // In glTF's axes up is (0, 1, 0) and d is (d.y, d.z, d.x): the axis is their cross product.
  const double x = d.x, z = -d.y, w = 1.0 + d.z, size = std::sqrt(x * x + z * z + w * w);
  if (size < 1e-6) return {1, 0, 0, 0};
  return {canonical(x / size), 0, canonical(z / size), canonical(w / size)};
}

// ------------------------------------------------------------------------------------------------------------- ground

/// How much ground is shown round the stair.
constexpr Length kGroundBeyond = inches(24.0);

/// The ground between and beyond the readings, open where the landing lies.
Mesh ground_of(const Frame& frame, const Site& site) {
  using Box = std::array<Interval, 3>;
  std::optional<Box> landing;
  Interval out, across;
  for (const Part& part : frame.parts) {
    const Box around = box(part.solid);
    if (!landing && is_ground(part)) landing = around;  // its top layer comes first
    out.to = std::max(out.to, around[0].to + kGroundBeyond);
    across = {std::min(across.from, around[1].from), std::max(across.to, around[1].to)};
  }
  std::set<Length> xs{out.from, out.to}, ys{across.from, across.to};
  for (const GroundLine& line : site.lines()) {
    ys.insert(line.across);
    for (const Reading& reading : line.readings) {
      if (out.contains(reading.out)) xs.insert(reading.out);
    }
  }
  if (landing) {
    xs.insert({(*landing)[0].from, (*landing)[0].to});
    ys.insert({(*landing)[1].from, (*landing)[1].to});
  }
  const auto at = [&](Length x, Length y) { return Point3{x, y, site.ground(x, y).z}; };
  Mesh mesh;
  for (auto x = xs.begin(); std::next(x) != xs.end(); ++x) {
    for (auto y = ys.begin(); std::next(y) != ys.end(); ++y) {
      const Interval a{*x, *std::next(x)}, b{*y, *std::next(y)};
      if (landing && (*landing)[0].contains(a.middle()) && (*landing)[1].contains(b.middle())) continue;
      const Point3 p = at(a.from, b.from), q = at(a.to, b.from), r = at(a.to, b.to), s = at(a.from, b.to);
      add_face(mesh, {p, q, r}, {{0, 1, 2}});
      add_face(mesh, {p, r, s}, {{0, 1, 2}});
    }
  }
  return mesh;
}

// --------------------------------------------------------------------------------------------------------------- file

// Numbers that the format gives its enumerations.
constexpr int kFloat = 5126, kShort = 5123, kInt = 5125, kVertices = 34962, kIndices = 34963;

void put(std::string& bytes, std::uint32_t value, int count = 4) {
  for (int i = 0; i < count; ++i) bytes += static_cast<char>(value >> (8 * i) & 0xFF);
}

void pad(std::string& bytes, char with) { bytes.append((4 - bytes.size() % 4) % 4, with); }

double metres(Length v) { return canonical(in_inches(v)) * (kMillimetresPerInch / 1000.0); }

class Writer {
 public:
  /// RETURNS the mesh's number; equal meshes of one material are written once.
  int add_mesh(const Mesh& mesh, const Material& material) {
    std::vector<Triple> places, normals;
    for (const Point3 p : mesh.corners) places.push_back(triple(metres(p.y), metres(p.z), metres(p.x)));
    for (const Direction d : mesh.normals) normals.push_back(triple(canonical(d.y), canonical(d.z), canonical(d.x)));
    const auto [known, is_new] =
        meshes_.try_emplace({&material, places, mesh.triangles}, static_cast<int>(meshes_.size()));
    if (!is_new) return known->second;
    json low = json::array(), high = json::array();
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const auto [least, most] = std::ranges::minmax(places, {}, [axis](const Triple& p) { return p[axis]; });
      low.push_back(least[axis]);
      high.push_back(most[axis]);
    }
    const std::size_t count = places.size();
    const int position = add_accessor(place_view, count, kFloat, "VEC3");
    root_["accessors"].back().update({{"min", low}, {"max", high}});
    put_all(place_view, places);
    const int normal = add_accessor(normal_view, count, kFloat, "VEC3");
    put_all(normal_view, normals);
    const bool fits = count <= std::numeric_limits<std::uint16_t>::max();
    const int indices = add_accessor(triangle_view, mesh.triangles.size(), fits ? kShort : kInt, "SCALAR");
    for (const std::uint32_t corner : mesh.triangles) put(views_[triangle_view], corner, fits ? 2 : 4);
    pad(views_[triangle_view], 0);
    return add("meshes", {{"primitives",
                           {{{"attributes", {{"POSITION", position}, {"NORMAL", normal}}},
                             {"indices", indices},
                             {"material", index_of(material)}}}}});
  }

  /// Every node goes into the group or node that names it as a child, or into the scene.
  int add_node(json node) { return add("nodes", std::move(node)); }
  void add_to_scene(json node) { scene_.push_back(add_node(std::move(node))); }

  std::string file() && {
    std::string data;
    for (const View each : {place_view, normal_view, triangle_view}) {
      json view{{"buffer", 0}, {"byteOffset", data.size()}, {"byteLength", views_[each].size()}};
      view["target"] = each == triangle_view ? kIndices : kVertices;
      if (each != triangle_view) view["byteStride"] = 3 * sizeof(float);
      add("bufferViews", std::move(view));
      data += views_[each];
    }
    root_["asset"] = {{"version", "2.0"}, {"generator", "pitchboard"}};
    root_["buffers"] = {{{"byteLength", data.size()}}};
    root_["scenes"] = {{{"nodes", scene_}}};
    root_["scene"] = 0;
    std::string text = root_.dump(-1, ' ', false, json::error_handler_t::replace);
    pad(text, ' ');
    std::string out = "glTF";
    put(out, 2);
    put(out, static_cast<std::uint32_t>(12 + 8 + text.size() + 8 + data.size()));
    put(out, static_cast<std::uint32_t>(text.size()));
    out += "JSON" + text;
    put(out, static_cast<std::uint32_t>(data.size()));
    out += std::string("BIN\0", 4) + data;
    return out;
  }

 private:
  enum View : std::size_t { place_view, normal_view, triangle_view };
  using Triple = std::array<float, 3>;
  static Triple triple(double x, double y, double z) {
    return {static_cast<float>(x), static_cast<float>(y), static_cast<float>(z)};
  }

  int add(const char* list, json item) {
    root_[list].push_back(std::move(item));
    return static_cast<int>(root_[list].size()) - 1;
  }

  int add_accessor(View view, std::size_t count, int component, const char* type) {
    return add("accessors", {{"bufferView", view},
                             {"byteOffset", views_[view].size()},
                             {"componentType", component},
                             {"count", count},
                             {"type", type}});
  }

  void put_all(View view, const std::vector<Triple>& triples) {
    for (const Triple& each : triples) {
      for (const float v : each) put(views_[view], std::bit_cast<std::uint32_t>(v));
    }
  }

  int index_of(const Material& material) {
    const auto [known, is_new] = materials_.try_emplace(&material, static_cast<int>(materials_.size()));
    if (is_new) {
      const json colour{linear_light(material.colour >> 16), linear_light(material.colour >> 8 & 0xFF),
                        linear_light(material.colour & 0xFF), 1};
      add("materials", {{"name", material.name},
                        {"pbrMetallicRoughness",
                         {{"baseColorFactor", colour},
                          {"metallicFactor", material.metallic},
                          {"roughnessFactor", material.roughness}}}});
      // The ground is a sheet: it is seen from below as well.
      if (&material == &kEarth) root_["materials"].back()["doubleSided"] = true;
    }
    return known->second;
  }

  json root_, scene_ = json::array();
  std::string views_[3];
  std::map<const Material*, int> materials_;
  std::map<std::tuple<const Material*, std::vector<Triple>, std::vector<std::uint32_t>>, int> meshes_;
};

// -------------------------------------------------------------------------------------------------------------- scene

/// A place to a thousandth of a millimetre.
json at(Point3 p) { return {canonical(metres(p.y)), canonical(metres(p.z)), canonical(metres(p.x))}; }

/// Its mesh counts from the least corner of its box: floats are fine there, and parts cut alike share one.
int add_part(Writer& writer, const Part& part) {
  const auto [x, y, z] = box(part.solid);
  const Point3 origin{x.from, y.from, z.from};
  Mesh mesh;
  add_prism(mesh, part.solid);
  for (Point3& corner : mesh.corners) corner = corner - origin;
  return writer.add_node(
      {{"name", part.mark},
       {"mesh", writer.add_mesh(mesh, material_of(part))},
       {"translation", at(origin)},
       {"extras",
        {{"kind", kind_words(part.kind)}, {"use", part.use}, {"step", part.step}, {"side", word(part.side)}}}});
}

int add_fastener(Writer& writer, const Frame& frame, const Fastener& f) {
  json joins = json::array();
  for (const std::size_t part : f.joins) joins.push_back(frame.parts[part].mark);
  const HardwareRow* row = find_hardware(f.item);
  json node{{"name", f.mark},
            {"mesh", writer.add_mesh(mesh_of(f), kMetal)},
            {"translation", at(f.head)},
            {"rotation", turn_from_up(f.direction)},
            {"extras", {{"kind", row ? row->kind : ""}, {"item", f.item}, {"use", f.reason}, {"joins", joins}}}};
  if (f.nut_height > Length()) {
    node["children"] = {writer.add_node({{"name", f.mark + " nut"},
                                         {"mesh", writer.add_mesh(nut_of(f), kMetal)},
                                         {"translation", at({{}, {}, grip(frame, f)})}})};
  }
  return writer.add_node(std::move(node));
}

}  // namespace

std::string to_glb(const Frame& frame, const Site& site) {
  Writer writer;
  std::map<PartKind, json> groups;
  for (const Part& part : frame.parts) groups[part.kind].push_back(add_part(writer, part));
  for (const auto& [kind, children] : groups) writer.add_to_scene({{"name", kind_words(kind)}, {"children", children}});
  json fasteners;
  for (const Fastener& f : frame.fasteners) fasteners.push_back(add_fastener(writer, frame, f));
  if (!fasteners.empty()) writer.add_to_scene({{"name", "fasteners"}, {"children", fasteners}});
  writer.add_to_scene({{"name", "ground"}, {"mesh", writer.add_mesh(ground_of(frame, site), kEarth)}});
  return std::move(writer).file();
}

}  // namespace pitchboard
