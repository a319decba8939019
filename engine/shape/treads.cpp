#include "engine/shape/treads.hpp"

#include "engine/base/catalog.hpp"

namespace pitchboard {
namespace {

/// A measured board is the catalogue's board when both sizes agree this well.
constexpr Length kSameSize = inches(1.0 / 64.0);

TreadBoards of_stock(const char* nominal, int count) {
  const SectionRow* row = find_section(nominal);
  return {nominal, inches(row ? row->thickness : 0), inches(row ? row->width : 0), count};
}

}  // namespace

TreadBoards tread_boards(const Stair& stair) {
  switch (stair.treads) {
    case TreadMake::one_2x12:
      return of_stock("2x12", 1);
    case TreadMake::two_2x6:
      return of_stock("2x6", 2);
    case TreadMake::two_5_4x6:
      return of_stock("5/4x6", 2);
    case TreadMake::custom:
      break;
  }
  for (const SectionRow& row : sections()) {
    if (abs(inches(row.thickness) - stair.tread_thickness) < kSameSize &&
        abs(inches(row.width) - stair.tread_board_width) < kSameSize) {
      return {std::string(row.nominal), stair.tread_thickness, stair.tread_board_width, stair.tread_boards};
    }
  }
  return {"custom", stair.tread_thickness, stair.tread_board_width, stair.tread_boards};
}

Length tread_depth(const Stair& stair) {
  const TreadBoards boards = tread_boards(stair);
  return boards.width * boards.count + stair.board_gap * (boards.count - 1);
}

Length tread_thickness(const Stair& stair) { return tread_boards(stair).thickness; }

}  // namespace pitchboard
