// The plan as canonical JSON. One `json_of` per type, in the order of the stages; keys are sorted by the JSON library's
// map.

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "engine/base/canonical.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/job/read_job.hpp"
#include "engine/job/words.hpp"
#include "engine/plan.hpp"
#include "engine/shape/collision.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;

/// Members of one class, so that each overload sees all others, whatever their order.
struct Writer {
  static json json_of(double value) { return canonical(value); }
  static json json_of(Length value) { return json_of(in_inches(value)); }
  static json json_of(Area value) { return json_of(value.raw()); }
  static json json_of(Force value) { return json_of(in_pounds(value)); }
  static json json_of(Angle value) { return json_of(in_degrees(value)); }
  static json json_of(Money value) { return value.cents; }
  static json json_of(const std::string& value) { return value; }
  static json json_of(Point p) { return json::array({json_of(p.a), json_of(p.b)}); }
  static json json_of(Point3 p) { return json::array({json_of(p.x), json_of(p.y), json_of(p.z)}); }
  static json json_of(Direction d) { return json::array({json_of(d.x), json_of(d.y), json_of(d.z)}); }
  static json json_of(Interval v) { return json::array({json_of(v.from), json_of(v.to)}); }

  static json json_of(const std::optional<double>& value) { return value ? json_of(*value) : json(); }

  template <class T>
  static json json_of(const std::vector<T>& list) {
    json out = json::array();
    for (const T& item : list) out.push_back(json_of(item));
    return out;
  }

  static json json_of(const Problem& p) { return {{"place", p.place}, {"wrong", p.wrong}, {"remedy", p.remedy}}; }

  // ---------------------------------------------------------------------------------------------------------- measure

  static json json_of(const Level& level) {
    return {{"z", json_of(level.z)}, {"uncertainty", json_of(level.uncertainty)}, {"beyond_readings", level.beyond}};
  }
  static json json_of(const Reading& r) { return {{"out", json_of(r.out)}, {"down", json_of(r.down)}}; }
  static json json_of(const GroundLine& line) {
    return {{"line", word(line.line)}, {"across", json_of(line.across)}, {"readings", json_of(line.readings)}};
  }
  static json json_of(const Site& site) {
    return {{"lines", json_of(site.lines())}, {"assumptions", json_of(site.assumptions())}};
  }

  // ------------------------------------------------------------------------------------------------------------ shape

  /// What tells one flight from another; the planned one is written in full.
  static json json_of(const Flight& f) {
    json ready_cut;
    if (f.ready_cut) ready_cut = *f.ready_cut;
    return {{"risers", f.risers},
            {"unit_rise", json_of(f.unit_rise)},
            {"going", json_of(f.going)},
            {"run", json_of(f.run)},
            {"total_rise", json_of(f.total_rise)},
            {"top", word(f.top)},
            {"stringers", word(f.kind)},
            {"ready_cut", ready_cut},
            {"landing_lift", json_of(f.landing.lift)},
            {"twice_rise_plus_going", json_of(f.comfort.twice_rise_plus_going)}};
  }

  static json json_of(const Landing& l) {
    return {{"z", json_of(l.z)},
            {"lift", json_of(l.lift)},
            {"natural", json_of(l.natural)},
            {"fall", json_of(l.fall)},
            {"cross_fall", json_of(l.cross_fall)},
            {"out", json_of(l.out)},
            {"across", json_of(l.across)},
            {"nosing_x", json_of(l.nosing_x)},
            {"middle_y", json_of(l.middle_y)}};
  }

  static json whole_flight(const Flight& f) {
    json out = json_of(f);
    out.update({{"tread_thickness", json_of(f.tread_thickness)},
                {"tread_depth", json_of(f.tread_depth)},
                {"nosing", json_of(f.nosing)},
                {"first_riser_cut", json_of(f.first_riser_cut)},
                {"slope", json_of(f.slope)},
                {"nosings", json_of(f.nosings)},
                {"landing", json_of(f.landing)},
                {"rise_plus_going", json_of(f.comfort.rise_plus_going)},
                {"rise_times_going", json_of(f.comfort.rise_times_going)}});
    return out;
  }

  // ------------------------------------------------------------------------------------------------------------ frame

  static std::string_view axis_name(Axis axis) { return axis == Axis::x ? "x" : axis == Axis::y ? "y" : "z"; }

  static json json_of(const Part& p) {
    json out = {{"mark", p.mark},
                {"kind", kind_words(p.kind)},
                {"use", p.use},
                {"section",
                 {{"nominal", p.section.nominal},
                  {"thickness", json_of(p.section.thickness)},
                  {"width", json_of(p.section.width)}}},
                {"solid",
                 {{"normal", axis_name(p.solid.normal)},
                  {"span", json_of(p.solid.span)},
                  {"outline", json_of(p.solid.outline)}}},
                {"grain", json::array({json_of(p.grain_a), json_of(p.grain_b)})},
                {"across_outline", p.across_outline},
                {"species", p.species},
                {"grade", p.grade},
                {"treatment", p.treatment},
                {"step", p.step},
                {"side", word(p.side)}};
    if (is_cut_from_board(p.kind)) out["board_length"] = json_of(board_length(p));
    return out;
  }

  static std::string_view kind_word(HoleKind kind) { return kind == HoleKind::clearance ? "clearance" : "pilot"; }

  static json json_of(const Fastener& f, const Frame& frame) {
    const auto mark = [&](std::size_t part) {
      return part < frame.parts.size() ? frame.parts[part].mark : std::string();
    };
    json joins = json::array(), bored = json::array();
    for (const std::size_t part : f.joins) joins.push_back(mark(part));
    for (const Hole& h : holes(frame, f)) {
      bored.push_back({{"part", mark(h.part)},
                       {"kind", kind_word(h.kind)},
                       {"diameter", json_of(h.diameter)},
                       {"at", json_of(h.at)},
                       {"depth", json_of(h.depth)}});
    }
    return {{"mark", f.mark},
            {"item", f.item},
            {"head", json_of(f.head)},
            {"direction", json_of(f.direction)},
            {"length", json_of(f.length)},
            {"diameter", json_of(f.diameter)},
            {"joins", joins},
            {"holes", bored},
            {"reason", f.reason}};
  }

  static json json_of(const Clash& c) {
    return {{"kind", c.kind}, {"first", c.first}, {"second", c.second}, {"note", c.note}};
  }

  static json json_of(const Frame& f) {
    json fasteners = json::array();
    for (const Fastener& fastener : f.fasteners) fasteners.push_back(json_of(fastener, f));
    return {{"parts", json_of(f.parts)},
            {"fasteners", fasteners},
            {"clashes", json_of(f.clashes)},
            {"notes", json_of(f.notes)},
            {"head",
             {{"plumb_cut", json_of(f.head.plumb_cut)},
              {"contact", json_of(f.head.contact)},
              {"needed", json_of(f.head.needed)},
              {"hanger_board", f.head.hanger_board}}},
            {"stringer_spacing", json_of(f.stringer_spacing)},
            {"throat", json_of(f.throat)},
            {"guards", {{"left", f.guard_left}, {"right", f.guard_right}}},
            {"handrails", {{"left", f.handrail_left}, {"right", f.handrail_right}}}};
  }

  // --------------------------------------------------------------------------------------------------------- strength

  static json json_of(const Figure& f) {
    return {{"symbol", f.symbol}, {"words", f.words},   {"value", json_of(f.value)},   {"unit", f.unit},
            {"from", f.from},     {"source", f.source}, {"from_memory", f.from_memory}};
  }
  static json json_of(const Check& c) {
    return {{"member", c.member},
            {"where", c.where},
            {"what", c.what},
            {"clause", c.clause},
            {"verdict", verdict_words(c.verdict)},
            {"demand", json_of(c.demand)},
            {"capacity", json_of(c.capacity)},
            {"unit", c.unit},
            {"ratio", json_of(c.ratio)},
            {"figures", json_of(c.figures)},
            {"note", c.note},
            {"from_memory", c.from_memory()}};
  }
  static json json_of(const LoadPath& p) {
    json out = {{"from", p.from}, {"links", p.links}, {"weakest", json()}, {"not_checked", p.not_checked}};
    if (p.weakest) out["weakest"] = *p.weakest;
    return out;
  }
  static json json_of(const SpanLimit& l) {
    return {{"what", l.what},       {"is", json_of(l.is)}, {"limit", json_of(l.limit)},    {"unit", l.unit},
            {"compare", l.compare}, {"kept", l.kept()},    {"from_memory", l.from_memory}, {"source", l.source}};
  }
  static json json_of(const SawtoothBay& b) {
    return {{"from", json_of(b.from)},
            {"to", json_of(b.to)},
            {"mid_down", json_of(b.mid_down)},
            {"mid_normal", json_of(b.mid_normal)},
            {"bottom_stress", json_of(b.bottom_stress)}};
  }
  static json json_of(const SawtoothProp& p) {
    return {{"at", json_of(p.at)},
            {"reaction", json_of(p.reaction)},
            {"bottom_stress", json_of(p.bottom_stress)},
            {"throat_stress", json_of(p.throat_stress)}};
  }
  static json json_of(const SawtoothResult& r) {
    return {{"bays", json_of(r.bays)},
            {"props", json_of(r.props)},
            {"reactions_down", json_of(r.reactions_down)},
            {"nodes", r.nodes},
            {"elements", r.elements}};
  }
  static json json_of(const Strength& s) {
    return {{"loads", json_of(s.loads)},
            {"checks", json_of(s.checks)},
            {"paths", json_of(s.paths)},
            {"other_ways", json_of(s.other_ways)},
            {"limits", json_of(s.limits)},
            {"sawtooth", s.sawtooth ? json_of(*s.sawtooth) : json()},
            {"throat_beam", s.throat_beam ? json_of(*s.throat_beam) : json()},
            {"notes", s.notes}};
  }

  // ------------------------------------------------------------------------------------------------------------ rules

  static json json_of(const Finding& f) {
    return {{"pack", f.pack},
            {"clause", f.clause},
            {"quantity", f.quantity},
            {"sentence", f.sentence},
            {"confidence", f.confidence},
            {"source", f.source},
            {"verdict", verdict_words(f.verdict)},
            {"applies", f.applies},
            {"measured", json_of(f.measured)},
            {"limit", json_of(f.limit)},
            {"margin", json_of(f.margin)},
            {"uncertainty", json_of(f.uncertainty)},
            {"unit", f.unit},
            {"compare", f.compare},
            {"step", f.step},
            {"where", f.where},
            {"change", f.change}};
  }

  // -------------------------------------------------------------------------------------------------------------- cut

  static json json_of(const PlacedPiece& p) {
    return {{"mark", p.mark}, {"from", json_of(p.from)}, {"to", json_of(p.to)}};
  }
  static json json_of(const Board& b) {
    return {{"section", b.section}, {"length", json_of(b.length)}, {"price", json_of(b.price)},
            {"offcut", b.offcut},   {"pieces", json_of(b.pieces)}, {"left_over", json_of(b.left_over)}};
  }
  static json json_of(const SectionProof& p) {
    return {{"section", p.section}, {"cost", json_of(p.cost)}, {"bound", json_of(p.bound)}, {"cheapest", p.optimal}};
  }
  static json json_of(const CutPlan& c) {
    return {{"boards", json_of(c.boards)}, {"proofs", json_of(c.proofs)}, {"impossible", json_of(c.impossible)}};
  }
  static json json_of(const StringerCard& c) {
    return {{"mark", c.mark},
            {"same", json_of(c.same)},
            {"risers", c.risers},
            {"unit_rise", json_of(c.unit_rise)},
            {"going", json_of(c.going)},
            {"step_length", json_of(c.step_length)},
            {"marks", json_of(c.marks)},
            {"first_riser_cut", json_of(c.first_riser_cut)},
            {"top_going_cut", json_of(c.top_going_cut)},
            {"throat", json_of(c.throat)},
            {"drop", json_of(c.drop)},
            {"plumb_cut", json_of(c.plumb_cut)},
            {"foot_cut", json_of(c.foot_cut)},
            {"slope", json_of(c.slope)},
            {"square_tongue", json_of(c.square_tongue)},
            {"square_body", json_of(c.square_body)},
            {"overall", json_of(c.overall)}};
  }
  static json json_of(const SawSetting& s) {
    return {{"mark", s.mark},
            {"count", s.count},
            {"cut", s.cut},
            {"from_square", json_of(s.from_square)},
            {"beyond_saw", s.beyond_saw},
            {"how", s.how}};
  }
  static json json_of(const HoleRow& h) {
    return {{"part", h.part},
            {"fastener", h.fastener},
            {"mark", h.mark},
            {"face", h.face},
            {"from", h.from},
            {"along", json_of(h.along)},
            {"across", json_of(h.across)},
            {"diameter", json_of(h.diameter)},
            {"depth", json_of(h.depth)},
            {"kind", kind_word(h.kind)}};
  }
  static json json_of(const Marks& m) {
    return {{"stringers", json_of(m.stringers)}, {"saw", json_of(m.saw)}, {"holes", json_of(m.holes)}};
  }

  // -------------------------------------------------------------------------------------------------------------- buy

  static json json_of(const OrderLine& l) {
    return {{"group", l.group},
            {"item", l.item},
            {"key", l.key},
            {"length", json_of(l.length)},
            {"use", l.use},
            {"needed", l.needed},
            {"quantity", l.quantity},
            {"package", l.package},
            {"unit_price", json_of(l.unit_price)},
            {"price", json_of(l.price)},
            {"weight", json_of(l.weight)},
            {"note", l.note}};
  }
  static json json_of(const Order& o) {
    return {{"lines", json_of(o.lines)},  {"total", json_of(o.total)}, {"weight", json_of(o.weight)},
            {"price_date", o.price_date}, {"currency", o.currency},    {"notes", json_of(o.notes)}};
  }
};

}  // namespace

std::string plan_json(const Plan& plan) {
  const json out = {
      {"format", "pitchboard plan 1"},
      {"units", {{"length", "in"}, {"area", "sq in"}, {"angle", "deg"}, {"weight", "lb"}, {"money", "cent"}}},
      {"job", json::parse(job_json(plan.job), nullptr, false)},
      {"site", Writer::json_of(plan.site)},
      {"options", Writer::json_of(plan.options)},
      {"flight", Writer::whole_flight(plan.flight)},
      {"frame", Writer::json_of(plan.frame)},
      {"strength", Writer::json_of(plan.strength)},
      {"findings", Writer::json_of(plan.findings)},
      {"cuts", Writer::json_of(plan.cuts)},
      {"marks", Writer::json_of(plan.marks)},
      {"order", Writer::json_of(plan.order)}};
  return out.dump(1, ' ', false, json::error_handler_t::replace) + "\n";
}

std::string no_flight_json(const Job& job) {
  const ShapeLimits limits = shape_limits(job.place);
  const Collision found = collide(job, Site(job), limits);
  const auto limit = [&](const Limit& l) -> json {
    return {{"input", limit_key(job, limits, l)}, {"words", limit_words(job, limits, l)}};
  };
  const auto value = [](const LimitValue& v) {
    if (const Length* length = std::get_if<Length>(&v)) return Writer::json_of(*length);
    if (const Angle* angle = std::get_if<Angle>(&v)) return Writer::json_of(*angle);
    if (const int* count = std::get_if<int>(&v)) return json(*count);
    return json();
  };
  json collide = json::array(), ways = json::array();
  for (const Limit& l : found.limits) collide.push_back(limit(l));
  for (const Way& way : found.ways) {
    json changes = json::array();
    for (const LimitChange& change : way.changes) {
      json item = limit(change.limit);
      item["from"] = value(change.from);
      item["to"] = value(change.to);
      item["words"] = change_words(job, change);
      changes.push_back(std::move(item));
    }
    ways.push_back({{"changes", changes}, {"flight", Writer::json_of(way.flight)}, {"words", way_words(job, way)}});
  }
  const json out = {{"format", "pitchboard no flight 1"},
                    {"units", {{"length", "in"}, {"angle", "deg"}}},
                    {"collide", collide},
                    {"ways", ways}};
  return out.dump(1, ' ', false, json::error_handler_t::replace) + "\n";
}

std::string problems_json(const Problems& problems) {
  return Writer::json_of(problems).dump(1, ' ', false, json::error_handler_t::replace) + "\n";
}

}  // namespace pitchboard
