#pragma once
// A verdict as a shape, legible without colour. Internal to drawing.

#include "engine/draw/canvas.hpp"
#include "engine/rules/rules.hpp"

namespace pitchboard {

constexpr double kVerdictBarWidth = 44;

/// Draws the bar and its limit mark into the middle of the room.
void draw_verdict_bar(Canvas& canvas, const Box& room, Verdict verdict);

}  // namespace pitchboard
