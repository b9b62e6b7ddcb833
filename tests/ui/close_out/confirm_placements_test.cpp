#include "ui/close_out/close_out_page.h"
#include "ui/fixtures/window_fixture.h"

using namespace gk;
using namespace gk::test;

namespace {

/// Four sealants of the hygienist's, who has a PIN, on the close-out page.
struct ConfirmDesk : Desk {
  std::unique_ptr<ui::CloseOutPage> page;

  ConfirmDesk() {
    clinic.standardVisit(clinic.child("Mina"));
    must(clinic.session.setPin({clinic.hygienist, {}}, clinic.hygienist, "2580"));
    page = std::make_unique<ui::CloseOutPage>(context, nullptr);
    listen(*page);
    showActive(*page);
  }
  [[nodiscard]] bool isConfirmed() {
    return must(clinic.session.placementsToConfirm(clinic.hygienist)).empty();
  }
};

} // namespace

TEST_CASE("At the close-out an operator sees her own placements and confirms them by her PIN",
          "[case-236]") {
  ConfirmDesk desk;
  desk.prompter.choices = {0};
  desk.prompter.pins = {u"9038"_s};
  press(*desk.page, Qt::Key_Y, Qt::AltModifier);
  REQUIRE(desk.prompter.shown.size() == 1);
  CHECK(desk.prompter.shown.front().rows.size() == 4);
  CHECK_FALSE(desk.isConfirmed()); // backed out after a wrong one
  desk.clinic.clock.advance(std::chrono::seconds(2));
  desk.prompter.choices = {0};
  desk.prompter.pins = {u"2580"_s};
  press(*desk.page, Qt::Key_Y, Qt::AltModifier);
  CHECK(desk.isConfirmed());
  CHECK(desk.news == u"All placements of the day are confirmed."_s);
}

TEST_CASE("Left for later, the close-out says how many are not confirmed", "[case-237]") {
  ConfirmDesk desk;
  desk.prompter.choices = {1};
  press(*desk.page, Qt::Key_Y, Qt::AltModifier);
  CHECK_FALSE(desk.isConfirmed());
  CHECK(desk.news.startsWith(u"4 of 4 placements not confirmed"_s));
}
