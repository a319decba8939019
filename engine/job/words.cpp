#include "engine/job/words.hpp"

namespace pitchboard {
namespace {

constexpr Word kUnitSystem[] = {
    {"imperial", "Feet, inches and sixteenths on every paper."},
    {"metric", "Millimetres on every paper."},
};
constexpr Word kBehindRim[] = {
    {"joists", "Joists end square on the rim's back."},
    {"solid blocking", "Solid blocking fills the bays behind the rim."},
    {"house band", "The rim is the house's own band; what is behind it has to be opened up and looked at."},
    {"unknown", "Nobody has looked yet."},
};
constexpr Word kMethod[] = {
    {"line level", "A string with a line level hung on it."},
    {"water level", "A clear hose with water in it."},
    {"laser", "A self-levelling laser."},
    {"long level", "A long straight board with a level on it."},
};
constexpr Word kLine[] = {
    {"left", "Under the left edge of the stair, seen from the ground, facing the house."},
    {"middle", "Under the middle of the stair's width."},
    {"right", "Under the right edge of the stair."},
};
constexpr Word kPadMake[] = {
    {"pavers", "Pavers on bedding sand over compacted base."},
    {"concrete", "A concrete slab on compacted base."},
    {"gravel", "Compacted gravel in an edging."},
};
constexpr Word kTopMode[] = {
    {"deck edge", "The deck's edge is the top step; the highest tread lies one rise below it."},
    {"full tread", "The highest tread is level with the deck, against its edge."},
};
constexpr Word kTreadMake[] = {
    {"one 2x12", "One 2x12 a tread."},
    {"two 2x6", "Two 2x6 with a gap between them."},
    {"two 5/4x6", "Two 5/4x6 decking boards with a gap between them."},
    {"custom",
     "Boards of the thickness, width and number given by `tread_thickness`, `tread_board_width` and `tread_boards`."},
};
constexpr Word kRisers[] = {
    {"closed", "A riser board closes every step."},
    {"open", "No riser boards."},
};
constexpr Word kStringerKind[] = {
    {"cut", "Notched stringers, cut on site."},
    {"ready-cut", "Stringers that the yard sells already notched, listed in `yard.ready_cut`."},
    {"solid", "Stringers without notches; the treads stand between them."},
};
constexpr Word kSideRail[] = {
    {"none", "Nothing on this side."},
    {"guard", "Posts, rails and what fills them."},
};
constexpr Word kBalusterKind[] = {
    {"wood 2x2", "Square wooden balusters."},
    {"round metal", "Round metal balusters, 3/4 in."},
    {"none", "Rails only, nothing between them."},
};
constexpr Word kHandrailWish[] = {
    {"as required", "A graspable handrail where the code pack asks for one."},
    {"yes", "A graspable handrail in any case."},
    {"no", "No handrail, even where the code pack asks for one: the check will say so."},
};
constexpr Word kTopPosts[] = {
    {"new", "New posts at the top of the stair."},
    {"existing", "The deck's posts stand already; say where with `existing_post_out`."},
};

constexpr Word kBoltSize[] = {
    {"1/2 in", "Bolts 1/2 in thick."},
    {"5/8 in", "Bolts 5/8 in thick."},
};
constexpr Word kFootPosts[] = {
    {"bolted", "The lowest posts are bolted to the stringers and stand on the landing."},
    {"footing", "The lowest posts go on down into concrete of their own."},
};

}  // namespace

std::span<const Word> words_of(UnitSystem) { return kUnitSystem; }
std::span<const Word> words_of(BehindRim) { return kBehindRim; }
std::span<const Word> words_of(Method) { return kMethod; }
std::span<const Word> words_of(Line) { return kLine; }
std::span<const Word> words_of(PadMake) { return kPadMake; }
std::span<const Word> words_of(TopMode) { return kTopMode; }
std::span<const Word> words_of(TreadMake) { return kTreadMake; }
std::span<const Word> words_of(Risers) { return kRisers; }
std::span<const Word> words_of(StringerKind) { return kStringerKind; }
std::span<const Word> words_of(SideRail) { return kSideRail; }
std::span<const Word> words_of(BalusterKind) { return kBalusterKind; }
std::span<const Word> words_of(HandrailWish) { return kHandrailWish; }
std::span<const Word> words_of(TopPosts) { return kTopPosts; }
std::span<const Word> words_of(FootPosts) { return kFootPosts; }
std::span<const Word> words_of(BoltSize) { return kBoltSize; }

}  // namespace pitchboard
