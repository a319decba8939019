#pragma once
// What a check comes to, worst first.

namespace pitchboard {

enum class Verdict { fail, too_close, warn, not_checked, pass };

}  // namespace pitchboard
