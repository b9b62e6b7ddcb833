#include "reports/day/close_out_tables.h"
#include "reports/report.h"
#include "ui/board/runners_page.h"
#include "ui/close_out/close_out_page.h"
#include "ui/consent/form_desk_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/lists/report_browser.h"
#include "ui/prints/prints_page.h"
#include "ui/totals/totals_page.h"

#include "base/files/files.h"

#include <QComboBox>
#include <QTableView>

#include <algorithm>
#include <filesystem>

using namespace gk;
using namespace gk::test;

namespace {

constexpr const char* name = "Tidewater"; // in no other word of a page

/// Every page that saves what names students, at the key that saves it. One that is new is named by
/// tests/layout ("Names go to a file by one way").
struct Savers : Desk {
  Scratch files;

  Savers() {
    clinic.standardVisit(clinic.child("Mina", name));
    clinic.childWithoutForm("Lupe", name);
  }
  base::Path path(const char* called) const { return files / called; }

  /// Saves once sealed and once plain by the key, and checks what was said and what the file holds.
  template <class Page>
  void check(Page& page, Qt::Key key, std::deque<int> before = {}) {
    const auto at = [&](int how, const char* called) {
      prompter.choices = before;
      prompter.choices.push_back(how);
      prompter.files = {ui::toQt(path(called).string())};
      prompter.asked.clear();
      prompter.decided.clear();
      std::filesystem::remove(path(called));
      press(page, key, Qt::AltModifier);
      INFO(page.objectName().toStdString() << ": " << troubles.join(u'|').toStdString());
      CHECK(troubles.isEmpty());
      // It was said before any place was asked for.
      REQUIRE_FALSE(prompter.decided.isEmpty());
      CHECK(prompter.decided.back().contains(u"it names students"_s));
      REQUIRE(QTest::qWaitFor([&] { return std::filesystem::exists(path(called)); }, 10000));
      return must(base::readFile(path(called)));
    };
    const auto sealed = at(0, "names.gkpapers");
    CHECK_FALSE(prompter.asked.back().contains(ui::plainFileWords));
    CHECK(prompter.suggested.endsWith(u".gkpapers"_s));
    CHECK(news.isEmpty() == false);
    const auto papers = must(clinic.session.openPapers(sealed));
    REQUIRE_FALSE(papers.empty());
    CHECK(papers.front().name.ends_with(papers.size() > 1 ? ".csv" : ".pdf"));
    CHECK(std::ranges::any_of(papers,
                              [](const auto& one) { return one.bytes.starts_with("%PDF-"); }));
    CHECK(sealed.find(name) == std::string::npos);
    const auto plain = at(1, "names.pdf");
    CHECK(prompter.asked.back().endsWith(ui::plainFileWords));
    CHECK(plain.starts_with("%PDF-"));
    // Backing out of the question saves nothing.
    prompter.choices = before;
    prompter.files = {ui::toQt(path("none.pdf").string())};
    press(page, key, Qt::AltModifier);
    CHECK_FALSE(std::filesystem::exists(path("none.pdf")));
    prompter.files.clear();
  }
};

} // namespace

TEST_CASE("Pages that name students are saved sealed, or plain once that was said", "[case-313]") {
  Savers desk;
  ui::PrintsPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  using What = ui::PrintsPage::What;
  for (const auto what : {What::forms, What::labels, What::rooms, What::day, What::sheets}) {
    INFO(static_cast<int>(what));
    page.choose(what);
    desk.check(page, Qt::Key_S);
  }
  // Blank forms name no one, so nothing is asked.
  page.choose(What::blankForms);
  desk.prompter.decided.clear();
  desk.prompter.files = {ui::toQt(desk.path("blank.pdf").string())};
  press(page, Qt::Key_S, Qt::AltModifier);
  CHECK(desk.prompter.decided.isEmpty());
  CHECK(std::filesystem::exists(desk.path("blank.pdf")));
  // Nor is anything sealed or saved once the names are locked.
  desk.clinic.session.lock();
  page.letGo();
  page.choose(What::rooms);
  desk.prompter.choices = {0};
  desk.prompter.files = {ui::toQt(desk.path("locked.gkpapers").string())};
  press(page, Qt::Key_S, Qt::AltModifier);
  CHECK_FALSE(std::filesystem::exists(desk.path("locked.gkpapers")));
}

TEST_CASE("The chase list is saved sealed, and the counts are not asked about", "[case-313]") {
  Savers desk;
  ui::FormDeskPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  page.setFocus();
  press(page, Qt::Key_C, Qt::AltModifier);
  desk.check(page, Qt::Key_S);
  desk.prompter.decided.clear();
  desk.prompter.files = {ui::toQt(desk.path("counts.csv").string())};
  press(page, Qt::Key_V, Qt::AltModifier);
  CHECK(desk.prompter.decided.isEmpty());
  CHECK(must(base::readFile(desk.path("counts.csv"))).find(name) == std::string::npos);
}

TEST_CASE("The close-out, its letters and the runner's list are saved sealed", "[case-313]") {
  Savers desk;
  SECTION("the close-out and its return visits") {
    ui::CloseOutPage page(desk.context, nullptr);
    desk.listen(page);
    showActive(page);
    page.setFocus();
    desk.check(page, Qt::Key_S);
    page.findChild<ui::ReportBrowser*>()->choose(reports::close_out::toSee);
    desk.check(page, Qt::Key_V);
  }
  SECTION("a letter again") {
    ui::CloseOutPage page(desk.context, nullptr);
    desk.listen(page);
    showActive(page);
    page.setFocus();
    desk.prompter.choices = {1};
    desk.prompter.prints = {true};
    press(page, Qt::Key_L, Qt::AltModifier);
    page.findChild<ui::ReportBrowser*>()->choose(reports::close_out::letters);
    desk.check(page, Qt::Key_L, {2});
  }
  SECTION("the runner's list") {
    desk.clinic.child("Wren", name);
    ui::RunnersPage page(desk.context, nullptr);
    desk.listen(page);
    showActive(page);
    page.begin(must(desk.clinic.session.day(desk.clinic.day)));
    desk.check(page, Qt::Key_S);
  }
}

TEST_CASE("A recall list is saved sealed as well as printed", "[case-306][case-313]") {
  Savers desk;
  ui::TotalsPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  const auto counted = [&] { return !page.isCounting(); };
  REQUIRE(QTest::qWaitFor(counted, 20000));
  auto& kinds = part<QComboBox>(page, u"totalsKind"_s);
  kinds.setCurrentIndex(static_cast<int>(reports::ReportKind::trace));
  Q_EMIT kinds.activated(kinds.currentIndex());
  REQUIRE(QTest::qWaitFor(counted, 20000));
  auto& browser = *page.findChild<ui::ReportBrowser*>();
  const auto& lots = browser.tables().front().rows;
  const auto used = std::ranges::find_if(lots, [](const auto& row) { return row.at(5) != "0"; });
  REQUIRE(used != lots.end());
  browser.findChild<QTableView*>()->selectRow(static_cast<int>(used - lots.begin()));
  press(page, Qt::Key_L, Qt::AltModifier);
  REQUIRE(QTest::qWaitFor(counted, 20000));
  desk.check(page, Qt::Key_S);
  CHECK(desk.prompter.suggested.startsWith(u"Recall-list-of-"_s));
  // What counts and names no one is not asked about.
  browser.choose(0);
  desk.prompter.decided.clear();
  desk.prompter.files = {ui::toQt(desk.path("lots.csv").string())};
  press(page, Qt::Key_S, Qt::AltModifier);
  CHECK(desk.prompter.decided.isEmpty());
}
