#include "ui/consent/form_desk_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/fixtures/pictures.h"
#include "ui/look/look.h"

#include <QComboBox>
#include <QTableView>

#include <iostream>

using namespace gk;
using namespace gk::test;
using roster::ConsentState;

namespace {

/// Stacks of paper forms, keyed as a person keys them, with every key counted.
struct FormsDesk : Desk {
  ui::FormDeskPage page{context, nullptr};
  int keys = 0;
  int thoughts = 0; ///< places where a person must decide, for the model of keystrokes

  FormsDesk() {
    ui::dress();
    listen(page);
    showActive(page);
    page.setFocus();
  }
  void key(Qt::Key which, Qt::KeyboardModifiers with = Qt::NoModifier) {
    keys += with == Qt::NoModifier ? 1 : 2;
    press(page, which, with);
  }
  void type(const QString& text) {
    for (const auto c : text) {
      ++keys;
      auto* focus = page.focusWidget();
      REQUIRE(focus != nullptr);
      QTest::keyClick(focus, c.toLatin1());
    }
  }
  QLineEdit& line(const char* name) { return part<QLineEdit>(page, QString::fromLatin1(name)); }
  QString label(const char* name) { return words(page, QString::fromLatin1(name)); }
  std::string number(roster::ChildId child) {
    return must(clinic.session.child(child)).value.number;
  }
  std::vector<base::Recorded<roster::Consent>> forms(roster::ChildId child) {
    return must(clinic.session.consents(child));
  }
  /// The whole of a plain form, from the number to Enter.
  void plain(const std::string& number, const QString& signedOn) {
    auto digits = ui::toQt(number);
    type(digits.remove(u'-'));
    key(Qt::Key_Return);
    key(Qt::Key_Y);
    key(Qt::Key_Return);
    type(signedOn);
    key(Qt::Key_Return);
  }
};

} // namespace

TEST_CASE("A plain form takes at most fifteen keys, and sixty an hour leave time to read",
          "[case-290]") {
  FormsDesk desk;
  constexpr int stack = 60;
  std::vector<roster::ChildId> children;
  for (int i = 0; i < stack; ++i)
    children.push_back(desk.clinic.childWithoutForm("Child" + std::to_string(i)));
  for (const auto child : children) {
    const int before = desk.keys;
    desk.plain(desk.number(child), u"1103"_s);
    CHECK(desk.keys - before <= 15);
    const auto forms = desk.forms(child);
    REQUIRE(forms.size() == 1);
    CHECK(forms.front().value.state == ConsentState::yes);
    CHECK(forms.front().value.allowed == roster::ServiceSet::all());
    CHECK(forms.front().value.signedOn == must(base::Date::parse("2026-11-03")));
    CHECK(forms.front().value.receivedOn == desk.clinic.clock.now().date());
  }
  CHECK(desk.troubles.isEmpty());
  CHECK(desk.prompter.asked.isEmpty());
  // The keystroke-level model of Card, Moran and Newell (The Psychology of Human-Computer
  // Interaction, 1983, chapter 8); its values from memory: 0.28 s a key for an average typist who
  // is no secretary, 0.75 s for complex codes, which is taken here for every key; 1.35 s to prepare
  // mentally, here for the number, the answer, the date and the saving; 0.40 s to move the hand
  // between keyboard and paper, twice. It says nothing of reading: what is left of a minute is for
  // reading the paper and turning it over.
  const double keysAForm = static_cast<double>(desk.keys) / stack;
  const double seconds = keysAForm * 0.75 + 4 * 1.35 + 2 * 0.40;
  std::cout << "form desk: " << keysAForm << " keys a form, " << seconds
            << " s by the keystroke-level model, " << 60 - seconds
            << " s of each minute left to read at 60 forms an hour\n";
  CHECK(seconds <= 30);
}

TEST_CASE("A date typed right after the answer is the signing date, and unchecks no service",
          "[case-431]") {
  FormsDesk desk;
  const auto mina = desk.clinic.childWithoutForm("Mina");
  desk.type(ui::toQt(desk.number(mina)));
  desk.key(Qt::Key_Return);
  desk.key(Qt::Key_Y);
  desk.type(u"11/03/2026"_s);
  CHECK(desk.page.focusWidget() == &desk.line("formSigned"));
  desk.key(Qt::Key_Return);
  const auto forms = desk.forms(mina);
  REQUIRE(forms.size() == 1);
  CHECK(forms.front().value.allowed == roster::ServiceSet::all());
  CHECK(forms.front().value.signedOn == must(base::Date::parse("2026-11-03")));
  // With limits the digits are the services', as the keys say.
  const auto osei = desk.clinic.childWithoutForm("Osei");
  desk.type(ui::toQt(desk.number(osei)));
  desk.key(Qt::Key_Return);
  desk.key(Qt::Key_L);
  desk.type(u"13"_s);
  desk.key(Qt::Key_Return);
  desk.type(u"1103"_s);
  desk.key(Qt::Key_Return);
  CHECK(desk.forms(osei).front().value.allowed.values().size() == 2);
}

TEST_CASE("Who enters is chosen once, at the desk or at the form desk", "[case-432]") {
  FormsDesk desk;
  auto& who = part<QComboBox>(desk.page, u"formWho"_s);
  const auto keyed = [&] {
    const auto child = desk.clinic.childWithoutForm("Mina");
    desk.plain(desk.number(child), u"1103"_s);
    return desk.forms(child).front().stamp.by.author;
  };
  CHECK(keyed() == desk.clinic.hygienist);          // who works today
  desk.acting.enterAtDesk(desk.clinic.coordinator); // as the desk's own choice does
  desk.page.refresh();
  CHECK(keyed() == desk.clinic.coordinator);
  who.setCurrentIndex(who.findText(u"OF"_s, Qt::MatchStartsWith));
  CHECK(keyed() == desk.clinic.hygienist);
  desk.page.refresh(); // left, and come back to
  CHECK(keyed() == desk.clinic.hygienist);
  CHECK(desk.acting.entersAtDesk() == desk.clinic.hygienist);
}

TEST_CASE("Nothing is a yes by default, and a yes without its signing date is not entered",
          "[case-290]") {
  FormsDesk desk;
  const auto child = desk.clinic.childWithoutForm("Mina");
  desk.type(ui::toQt(desk.number(child)));
  desk.key(Qt::Key_Return);
  desk.key(Qt::Key_Return); // no answer given
  desk.key(Qt::Key_Return);
  CHECK(desk.news == u"What does the form say? Y, L, N or I."_s);
  CHECK(desk.forms(child).empty());
  desk.key(Qt::Key_Y);
  desk.key(Qt::Key_Return);
  desk.key(Qt::Key_Return);
  CHECK(desk.troubles.join(u' ').contains(u"no signing or arrival date"_s));
  CHECK(desk.forms(child).empty());
  CHECK(desk.page.focusWidget() == &desk.line("formSigned"));
}

TEST_CASE("An allergy to what is placed stops it unless the typist says otherwise", "[case-422]") {
  FormsDesk desk;
  auto& kind = part<QComboBox>(desk.page, u"formFlag"_s);
  const auto& action = part<QComboBox>(desk.page, u"formAction"_s);
  for (const auto one : {roster::FlagKind::acrylateAllergy, roster::FlagKind::latexAllergy,
                         roster::FlagKind::rosinReaction}) {
    kind.setCurrentIndex(static_cast<int>(roster::FlagKind::asthma));
    CHECK(action.currentIndex() == static_cast<int>(roster::FlagAction::ask));
    kind.setCurrentIndex(static_cast<int>(one));
    CHECK(action.currentIndex() == static_cast<int>(roster::FlagAction::stop));
  }
}

TEST_CASE("Limits, several alerts and both adults of one form are entered on one screen",
          "[case-290]") {
  FormsDesk desk;
  const auto child = desk.clinic.childWithoutForm("Mina");
  desk.type(ui::toQt(desk.number(child)));
  desk.key(Qt::Key_Return);
  desk.key(Qt::Key_Y);
  desk.key(Qt::Key_L); // all but what is unchecked now
  desk.key(Qt::Key_9); // no photos
  desk.line("formGuardian1").setText(u"Rosa Hollowell"_s);
  desk.line("formPhone1").setText(u"000-555-0101"_s);
  desk.line("formGuardian2").setText(u"Tom Hollowell"_s);
  part<QComboBox>(desk.page, u"formFlag"_s)
      .setCurrentIndex(static_cast<int>(roster::FlagKind::asthma));
  desk.line("formDetail").setText(u"inhaler in the office"_s);
  desk.key(Qt::Key_A, Qt::AltModifier);
  part<QComboBox>(desk.page, u"formFlag"_s)
      .setCurrentIndex(static_cast<int>(roster::FlagKind::latexAllergy));
  desk.key(Qt::Key_A, Qt::AltModifier);
  CHECK(desk.label("formAlerts").contains(u"inhaler in the office"_s));
  desk.line("formSigned").setText(u"11/3/2026"_s);
  desk.key(Qt::Key_Return, Qt::ControlModifier);
  CHECK(desk.troubles.isEmpty());
  const auto forms = desk.forms(child);
  REQUIRE(forms.size() == 1);
  CHECK(forms.front().value.state == ConsentState::yesWithLimits);
  CHECK(forms.front().value.allowed == roster::ServiceSet::all().without({roster::Service::photo}));
  CHECK(must(desk.clinic.session.flags(child)).size() == 2);
  const auto adults = must(desk.clinic.session.identity(child)).guardians;
  REQUIRE(adults.size() == 2);
  CHECK(adults[0].phone == "000-555-0101");
}

TEST_CASE("What a stack shares stays from form to form", "[case-290]") {
  FormsDesk desk;
  const auto one = desk.clinic.childWithoutForm("Mina");
  const auto two = desk.clinic.childWithoutForm("Lupe");
  desk.line("formVersion").setText(u"2026-A"_s);
  desk.line("formReceived").setText(u"Nov 16, 2026"_s);
  part<QComboBox>(desk.page, u"formLanguage"_s).setCurrentText(u"Spanish"_s);
  desk.plain(desk.number(one), u"1103"_s);
  desk.plain(desk.number(two), u"1104"_s);
  for (const auto child : {one, two}) {
    const auto form = desk.forms(child).front().value;
    CHECK(form.version == "2026-A");
    CHECK(form.language == "Spanish");
    CHECK(form.receivedOn == must(base::Date::parse("2026-11-16")));
    CHECK(form.term == desk.clinic.term);
  }
  CHECK(desk.label("formTally").startsWith(u"2 forms"_s));
}

TEST_CASE("A scanned code jumps to the child, but never over a form that is half typed",
          "[case-293]") {
  FormsDesk desk;
  const auto mina = desk.clinic.childWithoutForm("Mina");
  const auto lupe = desk.clinic.childWithoutForm("Lupe");
  desk.page.scanned(ui::toQt(desk.number(mina)));
  CHECK(desk.label("formKnown").contains(u"Mina"_s));
  CHECK(desk.page.focusWidget()->objectName() == u"formAnswers"_s);
  desk.key(Qt::Key_Y);
  desk.page.scanned(ui::toQt(desk.number(lupe)));
  CHECK(desk.label("formKnown").contains(u"Mina"_s));
  CHECK(desk.news.contains(u"is not saved yet"_s));
  desk.prompter.confirms = {true};
  desk.key(Qt::Key_Escape);
  desk.page.scanned(ui::toQt(desk.number(lupe)));
  CHECK(desk.label("formKnown").contains(u"Lupe"_s));
}

TEST_CASE("A form typed wrong is corrected here with a reason, and its history is shown",
          "[case-291]") {
  FormsDesk desk;
  const auto child = desk.clinic.childWithoutForm("Mina");
  desk.plain(desk.number(child), u"1103"_s);
  desk.type(ui::toQt(desk.number(child)));
  desk.key(Qt::Key_Return);
  CHECK(desk.label("formKnown").contains(u"1 form in the logbook already"_s));
  desk.key(Qt::Key_K, Qt::AltModifier);
  desk.key(Qt::Key_N);
  desk.key(Qt::Key_Return, Qt::ControlModifier);
  CHECK(desk.troubles.size() == 1); // no reason
  CHECK(desk.forms(child).front().value.state == ConsentState::yes);
  desk.line("formReason").setText(u"typed from the next form"_s);
  desk.key(Qt::Key_Return, Qt::ControlModifier);
  CHECK(desk.forms(child).front().value.state == ConsentState::no);
  desk.type(ui::toQt(desk.number(child)));
  desk.key(Qt::Key_Return);
  auto& table = part<QTableView>(desk.page, u"formsKnown"_s);
  table.setCurrentIndex(table.model()->index(0, 0));
  CHECK(desk.label("formHistory").contains(u"yes"_s));
  CHECK(desk.label("formHistory").contains(u"Reason: typed from the next form"_s));
}

TEST_CASE("Locking the names leaves none on the form desk", "[case-293]") {
  FormsDesk desk;
  const auto child = desk.clinic.childWithoutForm("Mina");
  desk.type(ui::toQt(desk.number(child)));
  desk.key(Qt::Key_Return);
  desk.clinic.session.lock();
  desk.page.letGo();
  for (const auto* label : desk.page.findChildren<QLabel*>())
    CHECK_FALSE(label->text().contains(u"Mina"_s));
  for (const auto* line : desk.page.findChildren<QLineEdit*>())
    CHECK_FALSE(line->text().contains(u"Hollowell"_s));
}

TEST_CASE("The page counts what went out and came back, and prints whom to chase", "[case-292]") {
  FormsDesk desk;
  const auto back = desk.clinic.childWithoutForm("Mina");
  desk.clinic.childWithoutForm("Lupe");
  desk.plain(desk.number(back), u"1103"_s);
  desk.key(Qt::Key_C, Qt::AltModifier);
  CHECK(desk.label("formCountTitle").endsWith(u": 1 to chase"_s));
  part<QComboBox>(desk.page, u"formCountSchool"_s).setCurrentIndex(1);
  desk.line("handoutCopies").setText(u"24"_s);
  desk.key(Qt::Key_H, Qt::AltModifier);
  CHECK(desk.news.startsWith(u"Handed out: 24 forms"_s));
  auto& chase = *part<QTableView>(desk.page, u"formChaseTable"_s).model();
  REQUIRE(chase.rowCount() == 1);
  CHECK(chase.index(0, 4).data().toString().startsWith(u"Lupe"_s));
  desk.prompter.prints = {true};
  desk.key(Qt::Key_P, Qt::AltModifier);
  CHECK(desk.prompter.printed.startsWith("%PDF"));
  desk.key(Qt::Key_Escape);
  CHECK(desk.page.focusWidget() == &desk.line("formFind"));
}

TEST_CASE("A line of handed-out forms is corrected or struck, with a reason", "[case-316]") {
  FormsDesk desk;
  desk.clinic.childWithoutForm("Lupe");
  const auto today = desk.clinic.clock.now().date();
  auto& book = desk.clinic.session;
  must(book.enterHandout(desk.clinic.by, {desk.clinic.term, desk.clinic.school, "6", today, 240}));
  must(book.enterHandout(desk.clinic.by, {desk.clinic.term, desk.clinic.school, "7", today, 24}));
  const auto lines = [&] { return must(book.handouts(desk.clinic.term)); };
  desk.page.refresh();
  part<QComboBox>(desk.page, u"formWho"_s).setCurrentIndex(1);
  desk.key(Qt::Key_C, Qt::AltModifier);
  desk.key(Qt::Key_L, Qt::AltModifier);
  auto& list = part<QTableView>(desk.page, u"deskHandoutsTable"_s);
  REQUIRE(list.isVisible());
  REQUIRE(list.model()->rowCount() == 2);
  CHECK(list.model()->index(0, 3).data().toString() == u"240"_s);
  // The first line is open, ready to be corrected.
  auto& copies = desk.line("deskHandoutsCopies");
  CHECK(copies.text() == u"240"_s);
  copies.setText(u"5001"_s);
  desk.line("deskHandoutsReason").setText(u"a digit too many"_s);
  desk.key(Qt::Key_S, Qt::AltModifier);
  CHECK(lines().front().value.copies == 240);
  copies.setText(u"24"_s);
  desk.line("deskHandoutsReason").clear();
  desk.key(Qt::Key_S, Qt::AltModifier);
  CHECK(lines().front().value.copies == 240); // no reason, no correction
  desk.line("deskHandoutsReason").setText(u"a digit too many"_s);
  desk.key(Qt::Key_S, Qt::AltModifier);
  INFO(desk.troubles.join(u'|').toStdString());
  CHECK(desk.news.startsWith(u"The line is corrected."_s));
  CHECK(lines().front().value.copies == 24);
  CHECK(desk.label("deskHandoutsHistory").contains(u"240"_s));
  list.setCurrentIndex(list.model()->index(1, 0));
  desk.key(Qt::Key_X, Qt::AltModifier);
  desk.line("deskHandoutsReason").setText(u"entered twice"_s);
  desk.key(Qt::Key_S, Qt::AltModifier);
  CHECK(lines().back().value.copies == 0);
  CHECK(list.model()->index(1, 3).data().toString() == u"0"_s);
  // Back on the counts, they are as corrected.
  desk.key(Qt::Key_B, Qt::AltModifier);
  CHECK(desk.label("formCountTitle").endsWith(u": 1 to chase"_s));
  int out = 0;
  for (const auto& room : must(book.formCounts(desk.clinic.term, today)))
    out += room.handedOut.value_or(0);
  CHECK(out == 24);
  CHECK(desk.troubles.isEmpty());
}

TEST_CASE("Pictures of the form desk", "[.pictures]") {
  for (const int percent : {100, 150}) {
    ui::dress({.percent = percent});
    FormsDesk desk;
    ui::dress({.percent = percent});
    desk.page.resize(1260, 640);
    const auto child = desk.clinic.child("Mina", "Tolliver-Reed");
    for (int i = 0; i < 5; ++i)
      desk.clinic.childWithoutForm("Child" + std::to_string(i));
    desk.type(ui::toQt(desk.number(child)));
    desk.key(Qt::Key_Return);
    desk.key(Qt::Key_Y);
    desk.line("formDetail").setText(u"inhaler in the office"_s);
    desk.key(Qt::Key_A, Qt::AltModifier);
    QTest::qWait(50);
    savePicture(desk.page, u"form-desk-%1"_s.arg(percent));
    desk.key(Qt::Key_C, Qt::AltModifier);
    QTest::qWait(50);
    savePicture(desk.page, u"form-count-%1"_s.arg(percent));
  }
  ui::dress();
}

TEST_CASE("A form of a student who left: the form desk says so at once and asks before it saves",
          "[case-484]") {
  FormsDesk desk;
  auto& book = desk.clinic.session;
  const auto child = desk.clinic.childWithoutForm("Mina");
  const auto today = desk.clinic.clock.now().date();
  must(book.leaveProgram(desk.clinic.by, {child}, {today, roster::LeftBecause::withdrawn}));
  desk.prompter.confirms = {false};
  desk.plain(desk.number(child), u"1103"_s);
  CHECK(desk.label("formKnown")
            .contains(u"Left the program on November 17, 2026 (withdrawn by family)"_s));
  REQUIRE(desk.prompter.asked.size() == 1);
  CHECK(desk.prompter.asked.front().endsWith(
      u"stays off every day's list until recorded as back (Desk, Students, Came back). Enter the "
      "form anyway?"_s));
  CHECK(desk.forms(child).empty()); // and what was typed is there still
  CHECK(desk.line("formSigned").text() == u"Nov 3, 2026"_s);
  desk.prompter.confirms = {true};
  desk.key(Qt::Key_Return, Qt::ControlModifier);
  CHECK(desk.forms(child).size() == 1);
}
