#include "ui/board/day_board_page.h"
#include "ui/board/readiness_page.h"
#include "ui/fixtures/desk_fixture.h"

using namespace gk;
using namespace gk::test;
using kit::ReadinessAnswer;
using kit::ReadinessItem;

namespace {

class MorningCheck : public Desk {
 public:
  /// Not read yet today.
  kit::LightId light = must(clinic.session.enterLight(
      clinic.by, {"L-7", kit::LightType::led, {800}, {1080}, true, "M-1", true}));
  ui::ReadinessPage page{context, nullptr};

  MorningCheck() {
    auto setup = acting.now();
    setup.light = light;
    setup.sealant = clinic.resin;
    setup.etchant = clinic.etchant;
    acting.change(setup);
    listen(page);
    page.chooseDay(clinic.day);
    showActive(page);
    page.setFocus();
  }
  void key(Qt::Key which) { press(page, which); }
  void type(const QString& text) {
    auto& line = part<QLineEdit>(page, u"askLine"_s);
    REQUIRE(line.isVisible());
    line.setText(text);
    QTest::keyClick(&line, Qt::Key_Return);
  }
  [[nodiscard]] std::vector<base::Recorded<kit::ReadinessCheck>> answers() {
    return must(clinic.session.readiness(clinic.day));
  }
};

} // namespace

TEST_CASE("The morning check takes one key an item, a meter reading and a date") {
  MorningCheck morning;
  CHECK(words(morning.page, u"readinessState"_s).contains(u"0 of 8"_s));
  morning.key(Qt::Key_Return); // air line
  morning.key(Qt::Key_Return); // light
  morning.type(u"1075"_s);
  morning.key(Qt::Key_Return); // lots
  CHECK(words(morning.page, u"readinessState"_s).contains(u"3 of 8"_s));
  morning.key(Qt::Key_Return); // sterilizer
  morning.type(u"2026-11-13"_s);
  morning.key(Qt::Key_Return); // passed
  for (int item = 0; item < 4; ++item)
    morning.key(Qt::Key_Return);
  CHECK(words(morning.page, u"readinessState"_s) == u"✔ Ready."_s);
  const auto answers = morning.answers();
  REQUIRE(answers.size() == 8);
  for (const auto& answer : answers)
    CHECK(answer.value.answer == ReadinessAnswer::done);
  CHECK(answers[1].value.detail.find("1075 of ") != std::string::npos);
  CHECK(answers[1].value.detail.find("GREEN") != std::string::npos);
  CHECK(answers[2].value.detail.find("expires") != std::string::npos);
  CHECK(answers[3].value.detail == "spore test of 2026-11-13 passed");
  CHECK(answers[7].value.detail == "9:00 AM on Tuesday, November 17, 2026");
  CHECK(must(morning.clinic.session.readings(morning.light)).back().value.value.value == 1075);
  CHECK(morning.troubles.isEmpty());
}

TEST_CASE("A light that reads red fails the morning check and says what to do") {
  MorningCheck morning;
  morning.key(Qt::Key_Down);
  morning.key(Qt::Key_Return);
  morning.type(u"300"_s);
  morning.key(Qt::Key_Return); // a stray one confirms nothing
  CHECK(morning.answers().empty());
  morning.key(Qt::Key_2); // it does read 300
  const auto answers = morning.answers();
  REQUIRE(answers.size() == 1);
  CHECK(answers[0].value.item == ReadinessItem::light);
  CHECK(answers[0].value.answer == ReadinessAnswer::failed);
  CHECK(answers[0].value.detail.find("RED") != std::string::npos);
  CHECK(answers[0].value.reason.find("use another") != std::string::npos);
}

TEST_CASE("A meter is read again at any time and the newest number counts", "[case-100]") {
  MorningCheck morning;
  morning.key(Qt::Key_R);
  morning.type(u"104"_s);
  CHECK(words(morning.page, u"askQuestion"_s).contains(u"can hardly read 104"_s));
  morning.key(Qt::Key_1); // read it again
  morning.type(u"1040"_s);
  REQUIRE(morning.answers().size() == 1);
  CHECK(morning.answers()[0].value.detail.find("1040 of ") != std::string::npos);
  morning.key(Qt::Key_R);
  morning.type(u"860"_s);
  REQUIRE(morning.answers().size() == 1);
  CHECK(morning.answers()[0].value.answer == ReadinessAnswer::failed);
  morning.key(Qt::Key_R);
  morning.type(u"1035"_s);
  CHECK(morning.answers()[0].value.answer == ReadinessAnswer::done);
  CHECK(must(morning.clinic.session.readings(morning.light)).size() == 3);
}

TEST_CASE("A spore test that is over a week old is no pass") {
  MorningCheck morning;
  for (int i = 0; i < 3; ++i)
    morning.key(Qt::Key_Down);
  morning.key(Qt::Key_Return);
  morning.type(u"2026-11-02"_s);
  morning.key(Qt::Key_Return);
  const auto answers = morning.answers();
  REQUIRE(answers.size() == 1);
  CHECK(answers[0].value.answer == ReadinessAnswer::failed);
  CHECK(answers[0].value.reason == "the last spore test is 15 days old");
}

TEST_CASE("An item is passed over only with a reason and can be answered later") {
  MorningCheck morning;
  morning.key(Qt::Key_P);
  auto& line = part<QLineEdit>(morning.page, u"askLine"_s);
  QTest::keyClick(&line, Qt::Key_Return);
  CHECK(morning.answers().empty());
  morning.type(u"the compressor comes at nine"_s);
  REQUIRE(morning.answers().size() == 1);
  CHECK(morning.answers()[0].value.answer == ReadinessAnswer::passedOver);
  morning.key(Qt::Key_Up);
  morning.key(Qt::Key_Return);
  CHECK(morning.answers()[0].value.answer == ReadinessAnswer::done);
}

TEST_CASE("The board says not ready until every item has an answer, then what failed") {
  MorningCheck morning;
  ui::DayBoardPage board(morning.context, nullptr);
  showActive(board);
  const auto& check = part<QPushButton>(board, u"toReadiness"_s);
  CHECK(check.text() == u"Equipment check: 0 of 8 checked  F9"_s);
  for (std::size_t item = 0; item < base::enumCount<ReadinessItem>; ++item) {
    const bool failed = item == 0;
    must(morning.clinic.session.answerReadiness(
        morning.clinic.by,
        {morning.clinic.day, static_cast<ReadinessItem>(item),
         failed ? ReadinessAnswer::failed : ReadinessAnswer::done, failed ? "drops" : "", ""}));
  }
  CHECK(check.text() == u"Equipment check: air line failed  F9"_s);
}
