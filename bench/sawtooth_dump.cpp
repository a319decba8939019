// Writes a reference stringer's mesh, loads and supports as plain lines, and what the engine makes of them, for
// script/sawtooth_reference.py.
//
//   sawtooth_dump STEPS RISE GOING DEPTH KICKER PROP

#include <cstdio>
#include <cstdlib>

#include "tests/sawtooth_fixture.hpp"

int main(int count, char** words) {
  using namespace pitchboard;
  if (count != 7) return 2;
  const SawtoothModel model = model_of({std::atoi(words[1]), std::atof(words[2]), std::atof(words[3]),
                                        std::atof(words[4]), std::atoi(words[5]) != 0, std::atof(words[6])});
  const SawtoothMesh mesh = mesh_sawtooth(model);
  const auto result = solve_sawtooth(model, mesh);
  if (!result) return 1;
  const PlaneWood& w = model.wood;
  std::printf("wood %.17g %.17g %.17g %.17g %.17g %.17g\n", w.e_l, w.e_t, w.g_lt, w.nu_lt, w.grain_a, w.grain_b);
  std::printf("plate %.17g %.17g\n", model.thickness, model.weight_per_cubic_inch);
  const auto stretch = [](const char* what, Point p, Point q) {
    std::printf("%s %.17g %.17g %.17g %.17g", what, p.a.raw(), p.b.raw(), q.a.raw(), q.b.raw());
  };
  for (const Point p : model.outline) std::printf("corner %.17g %.17g\n", p.a.raw(), p.b.raw());
  for (const Point p : mesh.nodes) std::printf("node %.17g %.17g\n", p.a.raw(), p.b.raw());
  for (const auto& e : mesh.elements) {
    std::printf("element %d %d %d %d %d %d\n", e[0], e[1], e[2], e[3], e[4], e[5]);
  }
  for (const EdgeLoad& load : model.loads) {
    stretch("load", load.from, load.to);
    std::printf(" %.17g\n", load.down);
  }
  for (const EdgeSupport& s : model.supports) {
    stretch("support", s.from, s.to);
    std::printf(" %.17g %.17g\n", s.nx, s.ny);
  }
  for (const SawtoothBay& bay : result->bays) {
    std::printf("bay %.17g %.17g %.17g %.17g %.17g\n", bay.from, bay.to, bay.mid_down, bay.mid_normal,
                bay.bottom_stress);
  }
  for (const SawtoothProp& prop : result->props) {
    std::printf("prop %.17g %.17g %.17g\n", prop.at, prop.reaction, prop.bottom_stress);
  }
  return 0;
}
