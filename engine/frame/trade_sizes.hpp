#pragma once
// Sizes that the trade builds by. SOURCE of each: common practice, no source, unless one is named.

#include "engine/base/units.hpp"

namespace pitchboard {

/// Tread boards thinner than this want stringers no further apart than that. SOURCE IRC Table R507.7: 5/4 boards span
/// 16 in.
constexpr Length kThinBoard = inches(1.25), kThinBoardSpan = inches(16.0);
/// Wood between a bolt's centre and an edge of a stringer or rim, where there is room for it. SOURCE Wisconsin SPS
/// 320-325 App. B s.13.
constexpr Length kBoltEdge = inches(2.0);
/// Closest two bolts may stand, in diameters. SOURCE NDS 2018 Table 12.5.1B.
constexpr double kBoltApart = 3.0;
/// From a bolt to the end of the post that it would tear out of, in diameters. SOURCE NDS 2018 Table 12.5.1A, softwood.
constexpr double kBoltEnd = 7.0;
/// Rim and hanger board are held by 1/2 in bolts.
constexpr Length kRimBolt = inches(0.5);
/// Furthest apart the two bolts of a post are set, across the stringer's grain: the wider, the smaller the pull on the
/// upper one, but the stringer shrinks and the post does not. SOURCE NDS 2018 12.5.1: more than 5 in across the grain
/// needs detailing for shrinkage.
constexpr Length kBoltSpread = inches(5.0);
/// Least edge distance of a dowel 1/4 in and thicker: 1.5 diameters; of a screw: 2.5 diameters. SOURCE NDS 2018
/// Table 12.5.1C and its commentary.
constexpr double kDowelEdge = 1.5, kScrewEdge = 2.5;
/// Least end distance of a bolt that bears away from the end: 2 diameters. SOURCE NDS 2018 Table 12.5.1A.
constexpr double kDowelEnd = 2.0;
constexpr Length kThickDowel = inches(0.25);
/// A fastener goes at least this deep into the last part it joins. SOURCE own judgement; strength asks for more where
/// it matters.
constexpr Length kLeastBite = inches(0.5);
/// Wood denser than this takes the larger pilot hole. SOURCE NDS 2018 12.1.4: the lead-hole classes split at G 0.50.
constexpr double kHardWoodGravity = 0.50;
/// Two fasteners stand at least this far apart, surface to surface. SOURCE own judgement.
constexpr Length kBetweenFasteners = inches(1.0 / 16.0);
/// Thickest cut washer under a head, 5/8 in bolts. SOURCE data/hardware.toml.
constexpr Length kHeadWasher = inches(0.134);
/// Middle of a post behind the plumb cut it is bolted beside: leaves 2 in of wood before both staggered bolts.
constexpr Length kPostBehindCut = inches(2.5);
/// The same beside a solid stringer, whose riser boards are held by angles behind them.
constexpr Length kPostBehindSolidRiser = inches(3.25);
/// House side of the top post beyond the plumb cut, at least.
constexpr Length kPostBeyondHead = inches(0.875);
/// Air between two pieces of metal that stand beside each other.
constexpr Length kMetalClear = inches(1.0 / 16.0);
/// Nuts and washers of a post's bolts clear a connector, a tread or the wood's edge beside them by this.
constexpr Length kNutClear = inches(0.1875);
/// The two bolts of a post stand off its middle line by this, so that one check cannot cross both.
constexpr Length kBoltStagger = inches(0.375);
/// Flange of a hold-down: its bolt off the block's face, and the metal beyond the bolt. SOURCE common practice, no
/// source.
constexpr Length kHoldDownBolt = inches(1.0625), kHoldDownPastBolt = inches(0.9375);
/// Bolt of a hold-down below the underside of a tread: half the hold-down's height and a little.
constexpr Length kHoldDownUnderTread = inches(1.1875);
/// Wood between a post's bolt and the kicker's notch behind it, or the foot of the post below it, over the least edge
/// distance.
constexpr Length kOverLeastEdge = inches(0.125), kOverLeastEnd = inches(0.05);
/// Wood of the stringer between its plumb cut and the kicker; where bolts hold a hanger board there, their heads and
/// the wrench need more.
constexpr Length kBehindKicker = inches(1.75), kWrenchRoom = inches(2.5);
/// Where hold-downs stand before the kicker, its angles and anchors keep this near to its house side.
constexpr Length kOnKicker = inches(0.905);
/// Wood over the kicker's notch that the angle on it needs.
constexpr Length kRoomOverKicker = inches(2.125);
/// Solid stringers stand this far above the nosing line, square to it.
constexpr Length kSolidAboveNosings = inches(0.5);
/// Lowest riser board and post feet stay clear of the landing by this.
constexpr Length kOffGround = inches(0.25);
/// Clearance of a tread round a post.
constexpr Length kPostClearance = inches(0.125);
/// Underside of the bottom rail above the nosing line, square to it: at most this, and less where a 6 in ball would
/// pass the triangle below it. SOURCE IRC R312.1.3 exc. 1: 6 in ball; gap: common practice, no source.
constexpr Length kBottomRailGap = inches(1.0), kTriangleBall = inches(6.0), kTriangleMargin = inches(0.125);
/// Least nosing that a riser board on the rim may leave the deck edge. SOURCE IRC R311.7.5.3.
constexpr Length kLeastNosing = inches(0.75);
/// Handrail: clear of the cap's edge and of the guard. SOURCE IRC R311.7.8: at least 1 1/2 in.
constexpr Length kHandrailClear = inches(1.625);
/// Top of the handrail below the top of the cap beside it.
constexpr Length kHandrailBelowCap = inches(1.5);
/// Brackets of a handrail are no further apart than this, level: 200 lb bend a wet 1 1/2 in square rail of No. 2 pine
/// or cedar to its limit over 19 in of slope.
constexpr Length kBracketApart = inches(14.0);
/// A hanger board's bolt stands this far from a stringer's middle: half the stringer, connector leg, washer and socket
/// room.
constexpr Length kBoltFromStringer = inches(3.75);
/// Concrete cover and layers of a new landing. SOURCE paver institute guidance as told by the trade press: 2-3/8 in
/// pavers, 1 in bedding sand, 4 in compacted base reaching 6 in beyond; concrete 4 in on 4 in.
constexpr Length kPaver = inches(2.375), kBedding = inches(1.0), kBase = inches(4.0), kSlab = inches(4.0),
                 kGravelTop = inches(4.0);
constexpr Length kBaseBeyond = inches(6.0);
/// Earth may stand this much above the landing's edge before it has to be graded back.
constexpr Length kGroundOver = inches(0.5);
/// Bedding sand alone may raise pavers by this; more comes from compacted base, in lifts of at most 4 in.
constexpr Length kSandLift = inches(0.5), kBaseLift = inches(4.0);

/// Support beam under long stringers: at least this deep, each of its bolts 2 in (kBoltEdge) from its edges.
constexpr Length kSupportBeam = inches(7.25);
/// Posts under a support beam: this far inside the outer stringers, and no further apart than that, middle to middle.
constexpr Length kPostInside = inches(0.25), kSupportPostsApart = inches(48.0);
/// Bolts of a support beam, and how far the upper one stays from the edge that they push at: 4 diameters. SOURCE NDS
/// 2018 Table 12.5.1C.
constexpr Length kSupportBolt = inches(0.625), kSupportBoltEdge = inches(2.5), kSupportBoltFree = inches(1.25);
/// A support post ends this far below the beam's upper edge, clear of the stringers that slope over it.
constexpr Length kPostBelowBeam = inches(0.25);
/// Screws in the straps of a post base, above the post's foot; the beam begins so far above it that its lower bolts
/// clear them.
constexpr Length kLowStrapScrew = inches(1.0), kHighStrapScrew = inches(2.25), kBeamOverFoot = inches(1.5);
/// A pier is at least this wide and goes at least this deep. SOURCE width: common practice, no source; depth: IRC
/// R403.1.4, at least 12 in below undisturbed ground.
constexpr Length kLeastPier = inches(12.0), kLeastPierDepth = inches(12.0);
/// Its top stands this far above the ground, so that water runs off and the post's metal dries.
constexpr Length kPierAboveGround = inches(2.0);
/// Earth left between two piers; closer ones are one footing, which an engineer has to size.
constexpr Length kBetweenPiers = inches(6.0);
/// Loads on a stair where the job names none, lb per sq ft. SOURCE from memory: live IRC Table R301.5; dead: common
/// practice, no source.
constexpr double kLiveLoad = 40.0, kDeadLoad = 10.0;
/// A stringer that runs on over its support presses on it with more than the load between the middles of its spans:
/// 10/8 of it for two equal spans. SOURCE three-moment equation.
constexpr double kRunsOn = 1.25;
/// A support gives way to what stands in its place by steps of this, towards the house or away from it, by at most
/// this share of the span between supports.
constexpr Length kSupportStep = inches(0.5);
constexpr double kSupportShift = 0.25;

}  // namespace pitchboard
