#include "store/book.h"
#include "ui/fixtures/window_fixture.h"
#include "vault/vault.h"

#include <QComboBox>

using namespace gk;
using namespace gk::test;

namespace {

/// On the page that is up: the start and an open book each have a question of the program.
void write(const Window& desk, const QString& name, const QString& text) {
  const auto* book = desk.window->book();
  const QWidget& page = book ? static_cast<const QWidget&>(*book) : *desk.window;
  part<QLineEdit>(page, name).setText(text);
}

/// As far as the question of the program.
void givePassphraseTwice(const Window& desk) {
  write(desk, u"startPassphrase"_s, u"quiet gym floor"_s);
  write(desk, u"startAgain"_s, u"quiet gym floor"_s);
  press(*desk.window, Qt::Key_M, Qt::AltModifier);
}

void writeProgram(const Window& desk) {
  write(desk, u"programName"_s, u" Larkmere County Team "_s);
  write(desk, u"programCounty"_s, u"Larkmere"_s);
  write(desk, u"programPhone"_s, u"000-555-0142"_s);
  write(desk, u"programDentist"_s, u"Dr. Selwyn Hartgrove"_s);
  write(desk, u"programUntil"_s, u"2027-01-31"_s);
}

/// As the window once made it: a key, and no program.
void makeBookWithoutProgram(Window& desk) {
  const auto key = must(vault::Vault::create(crypto::Secret::copyOf(Clinic::passphrase),
                                             crypto::KdfCost::cheapest(), desk.random))
                       .wrapped;
  auto book = must(
      store::Book::create(desk.book(), desk.laptop, store::Durability::bulk, desk.clock.now().at,
                          {key.salt, static_cast<std::int64_t>(key.opsLimit),
                           static_cast<std::int64_t>(key.memoryBytes), key.nonce, key.box},
                          desk.random));
  must(book.finish());
}

} // namespace

TEST_CASE("A new logbook asks for its passphrase twice and its program, and opens at once",
          "[case-112]") {
  Window desk;
  desk.open();
  auto& first = part<QLineEdit>(*desk.window, u"startPassphrase"_s);
  auto& again = part<QLineEdit>(*desk.window, u"startAgain"_s);
  first.setText(u"short"_s);
  press(*desk.window, Qt::Key_M, Qt::AltModifier);
  CHECK(words(*desk.window, u"startTrouble"_s).contains(u"8 characters"_s));
  first.setText(u"quiet gym floor"_s);
  again.setText(u"quiet gym door"_s);
  press(*desk.window, Qt::Key_M, Qt::AltModifier);
  CHECK(words(*desk.window, u"startTrouble"_s).contains(u"differ"_s));
  givePassphraseTwice(desk);
  REQUIRE(desk.shows(u"programPage"_s));
  CHECK(desk.window->focusWidget()->objectName() == u"programName"_s);
  writeProgram(desk);
  desk.prompter->files = {ui::toQt((desk.folder / "new").string())};
  press(*desk.window, Qt::Key_M, Qt::AltModifier);
  REQUIRE(desk.window->book() != nullptr);
  CHECK(std::filesystem::exists(desk.folder / "new.gkbook"));
  CHECK_FALSE(desk.isCovered());
  CHECK(desk.shows(u"deskPage"_s)); // where the program is set up
  const auto program = must(desk.window->book()->session().program()).value;
  CHECK(program.name == "Larkmere County Team");
  CHECK(program.supervision == roster::Supervision::general);
  CHECK(program.notation == dentition::Notation::universal);
  CHECK(program.agreementUntil->iso() == "2027-01-31");
}

TEST_CASE("No logbook is made while its program is not whole, and nothing typed is lost",
          "[case-112]") {
  Window desk;
  desk.open();
  givePassphraseTwice(desk);
  writeProgram(desk);
  const auto refused = [&](const QString& field, const QString& text, const QString& says) {
    auto& line = part<QLineEdit>(*desk.window, field);
    const auto before = line.text();
    line.setText(text);
    desk.prompter->files = {ui::toQt((desk.folder / "new").string())};
    press(*desk.window, Qt::Key_M, Qt::AltModifier);
    INFO(field.toStdString());
    CHECK(words(*desk.window, u"programTrouble"_s).contains(says));
    CHECK(desk.window->focusWidget()->objectName() == field);
    CHECK(desk.window->book() == nullptr);
    CHECK_FALSE(std::filesystem::exists(desk.folder / "new.gkbook"));
    line.setText(before);
  };
  refused(u"programName"_s, u"  "_s, u"Program name: Required"_s);
  refused(u"programCounty"_s, {}, u"County: Required"_s);
  refused(u"programPhone"_s, u"\t"_s, u"Phone: Required"_s);
  refused(u"programUntil"_s, u"soon"_s, u"date"_s);

  must(base::replaceFile(desk.folder / "taken.gkbook", "Dear all"));
  desk.prompter->files = {ui::toQt((desk.folder / "taken").string())};
  press(*desk.window, Qt::Key_M, Qt::AltModifier);
  CHECK(words(*desk.window, u"programTrouble"_s).contains(u"cannot be written"_s));
  CHECK(must(base::readFile(desk.folder / "taken.gkbook")) == "Dear all");
  CHECK(desk.shows(u"programPage"_s));

  desk.prompter->files.clear(); // backs out of saying where
  press(*desk.window, Qt::Key_M, Qt::AltModifier);
  CHECK(desk.shows(u"programPage"_s));
  desk.prompter->files = {ui::toQt((desk.folder / "new").string())};
  press(*desk.window, Qt::Key_M, Qt::AltModifier);
  REQUIRE(desk.window->book() != nullptr);
  CHECK(must(desk.window->book()->session().program()).value.name == "Larkmere County Team");
}

TEST_CASE("Escape leaves the question of the program and nothing is made", "[case-112]") {
  Window desk;
  desk.open();
  givePassphraseTwice(desk);
  press(*desk.window, Qt::Key_Escape);
  CHECK(desk.shows(u"startPage"_s));
  CHECK(desk.window->book() == nullptr);
  CHECK(part<QLineEdit>(*desk.window, u"startPassphrase"_s).text().isEmpty());
}

TEST_CASE("A logbook without its program asks for it before anything is done in it", "[case-112]") {
  Window desk;
  makeBookWithoutProgram(desk);
  desk.openAndUnlock();
  const auto& question = part<QWidget>(*desk.window->book(), u"programPage"_s);
  REQUIRE(question.isVisible());
  CHECK_FALSE(desk.shows(u"dayBoardPage"_s));
  press(*desk.window, Qt::Key_F3);
  press(*desk.window, Qt::Key_Escape);
  CHECK(question.isVisible());
  writeProgram(desk);
  write(desk, u"programPhone"_s, {});
  press(*desk.window, Qt::Key_M, Qt::AltModifier);
  CHECK(words(question, u"programTrouble"_s).contains(u"Phone: Required"_s));
  write(desk, u"programPhone"_s, u"000-555-0142"_s);
  press(*desk.window, Qt::Key_M, Qt::AltModifier);
  CHECK(desk.shows(u"deskPage"_s));
  CHECK(must(desk.window->book()->session().program()).value.name == "Larkmere County Team");
  press(*desk.window, Qt::Key_F12);
  desk.give(Clinic::passphrase);
  CHECK(desk.shows(u"deskPage"_s));
}

TEST_CASE("The start and the question of the program fit a small laptop", "[case-112]") {
  Window desk;
  desk.open();
  const auto fits = [&](const QString& page) {
    INFO(page.toStdString());
    REQUIRE(desk.shows(page));
    CHECK(desk.window->minimumSizeHint().width() <= 1366);
    CHECK(desk.window->minimumSizeHint().height() <= 740);
    for (const auto* widget : desk.window->findChildren<QWidget*>()) {
      if (!widget->isVisible()) continue;
      INFO(widget->metaObject()->className() << ' ' << widget->objectName().toStdString());
      CHECK(QFontInfo(widget->font()).pixelSize() >= 14);
    }
  };
  fits(u"startPage"_s);
  givePassphraseTwice(desk);
  fits(u"programPage"_s);
  for (const char* name : {"programName", "programCounty", "programPhone", "programSupervision",
                           "programDentist", "programUntil", "programFooting", "programNotation"})
    CHECK_FALSE(part<QWidget>(*desk.window, QString::fromLatin1(name)).accessibleName().isEmpty());
}
