#include "reports/day/close_out_tables.h"
#include "reports/print/render.h"
#include "support/clinic.h"

#include <algorithm>

using namespace gk;
using test::must;

TEST_CASE("Who is kept home by an outbreak reads absent on the board and the sheet, no illness",
          "[case-85]") {
  test::Clinic clinic;
  const auto child = clinic.child("Mina");
  clinic.end(child, chairside::DayEnd::absent, "chickenpox");
  const auto board = must(clinic.session.board(clinic.day));
  REQUIRE(board.size() == 1);
  CHECK(board.front().outcome == "absent");
  const auto records = must(clinic.session.dayRecords(clinic.day));
  const auto sheet = reports::toText(reports::closeOutTables(reports::closeOut(records)));
  CHECK(sheet.find("absent") != std::string::npos);
  CHECK(sheet.find("chickenpox") == std::string::npos);
}
