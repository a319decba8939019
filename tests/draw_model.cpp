// The 3-D model, read back from its bytes by a reader of its own. SOURCE of the layout: Khronos Group, glTF 2.0
// Specification, 3.6 and 4.4.

#include <gtest/gtest.h>

#include <array>
#include <bit>
#include <cmath>
#include <cstring>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "engine/draw/model.hpp"
#include "tests/draw_fixture.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;
using Spot = std::array<double, 3>;

constexpr double kMetresPerInch = 0.0254;
/// Places are written to a micrometre, and floats.
constexpr double kPlace = 2e-6;

struct Surface {
  std::vector<Spot> corners, normals;  ///< by the indices, three a triangle
};

class File {
 public:
  explicit File(const std::string& bytes) : bytes_(bytes) {
    EXPECT_EQ(bytes.substr(0, 4), "glTF");
    EXPECT_EQ(number<std::uint32_t>(4), 2u);
    EXPECT_EQ(number<std::uint32_t>(8), bytes.size());
    const std::size_t text = number<std::uint32_t>(12);
    EXPECT_EQ(bytes.substr(16, 4), "JSON");
    root = json::parse(bytes.substr(20, text));
    EXPECT_EQ(bytes.substr(20 + text + 4, 4), std::string("BIN\0", 4));
    EXPECT_EQ(number<std::uint32_t>(20 + text), bytes.size() - (20 + text + 8));
    data_ = 20 + text + 8;
  }

  [[nodiscard]] Surface surface(const json& node) const {
    const json& primitive = root["meshes"][node["mesh"].get<std::size_t>()]["primitives"][0];
    Surface out;
    const json& indices = accessor(primitive["indices"]);
    const bool wide = indices["componentType"] == 5125;
    for (std::size_t i = 0; i < indices["count"]; ++i) {
      const std::size_t at = start(indices) + i * (wide ? 4 : 2);
      const std::size_t corner = wide ? number<std::uint32_t>(at) : number<std::uint16_t>(at);
      out.corners.push_back(triple(accessor(primitive["attributes"]["POSITION"]), corner));
      out.normals.push_back(triple(accessor(primitive["attributes"]["NORMAL"]), corner));
    }
    return out;
  }
  /// The nodes below the groups by their names, which are expected to differ.
  [[nodiscard]] std::map<std::string, json> nodes() const {
    std::map<std::string, json> out;
    for (const json& group : root["scenes"][0]["nodes"]) {
      for (const json& child : root["nodes"][group.get<std::size_t>()].value("children", json::array())) {
        const json& node = root["nodes"][child.get<std::size_t>()];
        EXPECT_TRUE(out.emplace(node["name"], node).second) << node["name"];
      }
    }
    return out;
  }
  [[nodiscard]] json top(const std::string& name) const {
    for (const json& group : root["scenes"][0]["nodes"]) {
      if (root["nodes"][group.get<std::size_t>()]["name"] == name) return root["nodes"][group.get<std::size_t>()];
    }
    ADD_FAILURE() << "no " << name;
    return {};
  }

  json root;

 private:
  template <class Number>
  [[nodiscard]] Number number(std::size_t at) const {
    static_assert(std::endian::native == std::endian::little, "as the file is");
    Number out;
    std::memcpy(&out, bytes_.substr(at, sizeof out).data(), sizeof out);
    return out;
  }
  [[nodiscard]] const json& accessor(const json& index) const { return root["accessors"][index.get<std::size_t>()]; }
  [[nodiscard]] std::size_t start(const json& accessor) const {
    const json& view = root["bufferViews"][accessor["bufferView"].get<std::size_t>()];
    return data_ + view["byteOffset"].get<std::size_t>() + accessor["byteOffset"].get<std::size_t>();
  }
  [[nodiscard]] Spot triple(const json& accessor, std::size_t i) const {
    const std::size_t at = start(accessor) + 12 * i;
    return {number<float>(at), number<float>(at + 4), number<float>(at + 8)};
  }

  const std::string& bytes_;
  std::size_t data_ = 0;
};

Spot minus(Spot p, Spot q) { return {p[0] - q[0], p[1] - q[1], p[2] - q[2]}; }
double dot(Spot p, Spot q) { return p[0] * q[0] + p[1] * q[1] + p[2] * q[2]; }
Spot cross(Spot p, Spot q) { return {p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]}; }
/// A place of the frame in the model's axes.
Spot in_model(Point3 p) { return {p.y.raw() * kMetresPerInch, p.z.raw() * kMetresPerInch, p.x.raw() * kMetresPerInch}; }

/// By the divergence theorem: positive when the faces look outwards.
double signed_volume(const Surface& s) {
  double six = 0;
  for (std::size_t i = 0; i < s.corners.size(); i += 3)
    six += dot(s.corners[i], cross(s.corners[i + 1], s.corners[i + 2]));
  return six / 6.0;
}

TEST(Model, EveryPartIsAClosedMeshOfItsVolumeWithNormalsOutwards) {
  for (const Job& job : drawn_jobs()) {
    SCOPED_TRACE(job.about.name);
    const auto plan = drawn(job);
    const std::string bytes = to_glb(plan->frame, plan->site);
    const File file(bytes);
    const auto nodes = file.nodes();
    for (const Part& part : plan->frame.parts) {
      SCOPED_TRACE(part.mark);
      const Surface s = file.surface(nodes.at(part.mark));
      const double wanted = volume(part.solid).raw() * std::pow(kMetresPerInch, 3);
      EXPECT_NEAR(signed_volume(s), wanted, 1e-4 * wanted);
      std::map<std::pair<Spot, Spot>, int> edges;
      for (std::size_t i = 0; i < s.corners.size(); i += 3) {
        for (std::size_t j = 0; j < 3; ++j) ++edges[{s.corners[i + j], s.corners[i + (j + 1) % 3]}];
        const Spot out = cross(minus(s.corners[i + 1], s.corners[i]), minus(s.corners[i + 2], s.corners[i]));
        EXPECT_GT(dot(out, s.normals[i]), 0.999 * std::sqrt(dot(out, out)));
        EXPECT_NEAR(dot(s.normals[i], s.normals[i]), 1.0, 1e-5);
      }
      for (const auto& [edge, count] : edges) {
        EXPECT_EQ(count, 1);
        EXPECT_TRUE(edges.contains({edge.second, edge.first}));
      }
    }
  }
}

TEST(Model, EveryMarkIsThereOnceAndSaysWhatItIs) {
  for (const Job& job : drawn_jobs()) {
    SCOPED_TRACE(job.about.name);
    const auto plan = drawn(job);
    const std::string bytes = to_glb(plan->frame, plan->site);
    const auto nodes = File(bytes).nodes();
    EXPECT_EQ(nodes.size(), plan->frame.parts.size() + plan->frame.fasteners.size());
    for (const Part& part : plan->frame.parts) {
      const json& extras = nodes.at(part.mark)["extras"];
      EXPECT_EQ(extras["kind"], kind_words(part.kind));
      EXPECT_EQ(extras["use"], part.use);
      EXPECT_EQ(extras["step"], part.step);
    }
    for (const Fastener& f : plan->frame.fasteners) EXPECT_EQ(nodes.at(f.mark)["extras"]["item"], f.item);
  }
}

TEST(Model, EqualPlansGiveEqualBytes) {
  EXPECT_EQ(to_glb(drawn(side_door())->frame, Site(side_door())), to_glb(drawn(side_door())->frame, Site(side_door())));
}

TEST(Model, PartsCutAlikeShareOneMesh) {
  const auto plan = drawn(long_flight());
  const std::string bytes = to_glb(plan->frame, plan->site);
  const File file(bytes);
  std::set<json> meshes;
  std::size_t balusters = 0;
  for (const auto& [mark, node] : file.nodes()) {
    if (node["extras"]["kind"] != "baluster") continue;
    ++balusters;
    meshes.insert(node["mesh"]);
  }
  EXPECT_GT(balusters, 10u);
  EXPECT_LT(meshes.size(), balusters / 4);
}

TEST(Model, NutsSitWhereTheLastPartEnds) {
  const auto plan = drawn(long_flight());
  const std::string bytes = to_glb(plan->frame, plan->site);
  const File file(bytes);
  const auto nodes = file.nodes();
  int bolts = 0;
  for (const Fastener& f : plan->frame.fasteners) {
    EXPECT_EQ(nodes.at(f.mark).contains("children"), f.nut_height > Length()) << f.mark;
    if (f.nut_height <= Length()) continue;
    ++bolts;
    const json& nut = file.root["nodes"][nodes.at(f.mark)["children"][0].get<std::size_t>()];
    const Length along = inches(nut["translation"][1].get<double>() / kMetresPerInch);
    const Prism& last = plan->frame.parts[f.joins.back()].solid;
    EXPECT_TRUE(contains(last, moved(f.head, f.direction, along - inches(0.01)))) << f.mark;
    EXPECT_FALSE(contains(last, moved(f.head, f.direction, along + inches(0.01)))) << f.mark;
  }
  EXPECT_GT(bolts, 3);
}

TEST(Model, GroundPassesThroughEveryReadingAndIsOpenWhereTheLandingLies) {
  for (const Job& job : drawn_jobs()) {
    SCOPED_TRACE(job.about.name);
    const auto plan = drawn(job);
    const std::string bytes = to_glb(plan->frame, plan->site);
    const File file(bytes);
    const Surface s = file.surface(file.top("ground"));
    double furthest = 0;
    for (const Spot& corner : s.corners) furthest = std::max(furthest, corner[2]);
    int met = 0;
    for (const GroundLine& line : plan->site.lines()) {
      for (const Reading& reading : line.readings) {
        const Spot wanted = in_model({reading.out, line.across, -reading.down});
        const Interval out = plan->flight.landing.out, across = plan->flight.landing.across;
        const bool in_landing = reading.out > out.from && reading.out < out.to && across.contains(line.across);
        if (in_landing || wanted[2] > furthest) continue;
        ++met;
        EXPECT_TRUE(std::ranges::any_of(s.corners,
                                        [&](const Spot& p) {
                                          const Spot off = minus(p, wanted);
                                          return std::sqrt(dot(off, off)) < kPlace;
                                        }))
            << line.across.raw() << " " << reading.out.raw();
      }
    }
    EXPECT_GT(met, 0);
    int holes = 0;
    for (std::size_t i = 0; i < s.corners.size(); i += 3) {
      EXPECT_GT(s.normals[i][1], 0.5);
      const Spot p = s.corners[i], q = s.corners[i + 1], r = s.corners[i + 2];
      const Point middle{inches((p[2] + q[2] + r[2]) / 3 / kMetresPerInch),
                         inches((p[0] + q[0] + r[0]) / 3 / kMetresPerInch)};
      holes += plan->flight.landing.out.contains(middle.a) && plan->flight.landing.across.contains(middle.b);
    }
    EXPECT_EQ(holes, 0);
  }
}

/// SOURCE look of the sheets and screens: cedar and earth; IEC 61966-2-1, linear light to sRGB.
TEST(Model, ColoursAreThoseOfTheLook) {
  Job job = low_step();
  job.wood.treatment = "durable-heartwood";
  const auto plan = drawn(job);
  const std::string bytes = to_glb(plan->frame, plan->site);
  const auto expect_colour = [](const json& material, std::array<int, 3> wanted) {
    for (std::size_t i = 0; i < 3; ++i) {
      const double v = material["pbrMetallicRoughness"]["baseColorFactor"][i];
      EXPECT_EQ(std::lround(255 * (1.055 * std::pow(v, 1 / 2.4) - 0.055)), wanted[i]) << material["name"];
    }
  };
  std::map<std::string, json> materials;
  const File file(bytes);
  for (const json& material : file.root["materials"]) materials[material["name"]] = material;
  expect_colour(materials.at("heartwood, treads"), {0xB3, 0x6B, 0x3C});
  expect_colour(materials.at("weathered wood"), {0x9A, 0xA3, 0x9B});
  expect_colour(materials.at("earth"), {0x8B, 0x7D, 0x6B});
}

TEST(Model, ManyReadingsTakeWiderIndices) {
  Job job = low_step();
  const auto plan = drawn(job);
  std::vector<Reading>& readings = job.ground.lines.front().readings;
  readings.clear();
  for (int i = 1; i <= 5000; ++i) readings.push_back({inches(0.012 * i), inches(21.5 + i % 2)});
  const std::string bytes = to_glb(plan->frame, Site(job));
  const File file(bytes);
  const Surface s = file.surface(file.top("ground"));
  EXPECT_GT(s.corners.size(), 65536u);
  std::set<double> outs;
  for (const Spot& corner : s.corners) outs.insert(corner[2]);
  EXPECT_GE(outs.size(), 5000u);
}

}  // namespace
}  // namespace pitchboard
