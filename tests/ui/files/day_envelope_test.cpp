#include "ui/files/laptop_page.h"
#include "ui/fixtures/desk_fixture.h"

#include "base/files/files.h"

#include <filesystem>

using namespace gk;
using namespace gk::test;

namespace {

const QString dayWords = u"seven gray herons"_s;

/// The settings of a laptop, for the keys that seal and merge a day.
struct Envelopes : Desk {
  Scratch drive;
  ui::LaptopPage page{context, nullptr};

  Envelopes() {
    listen(page);
    showActive(page);
  }
  base::Path file(const char* name) const { return drive / name; }
  void seal(const char* name, const QString& first, const QString& second) {
    prompter.files = {ui::toQt(file(name).string())};
    prompter.texts = {first, second};
    press(page, Qt::Key_E, Qt::AltModifier);
  }
  void merge(const char* name, const QString& words) {
    prompter.files = {ui::toQt(file(name).string())};
    prompter.texts = {words};
    press(page, Qt::Key_M, Qt::AltModifier);
  }
  /// Another laptop that works on what is in the envelope, as itself or under this one's identity.
  void worksOn(const char* from, const char* back, roster::ChildId child, bool isCopiedDisk) {
    const auto book = file("other.gkbook");
    must(session::Session::unpackEnvelope(file(from), ui::toStd(dayWords), book,
                                          session::BookKind::throwaway));
    base::SeededRandom random{77};
    const auto laptop = isCopiedDisk
                            ? clinic.laptop
                            : base::LaptopId(base::makeUuid7(clinic.clock.now().at, random));
    auto other =
        must(session::Session::open(book, laptop, {clinic.clock, random}, store::Access::readWrite,
                                    session::BookKind::throwaway));
    must(other.unlock(Clinic::passphrase));
    must(other.enterFlag(clinic.by, {.child = child,
                                     .kind = roster::FlagKind::asthma,
                                     .action = roster::FlagAction::ask,
                                     .detail = "on the other laptop",
                                     .decided = {}}));
    must(other.sealDay(clinic.by, file(back), {}, ui::toStd(dayWords)));
    must(other.finish());
  }
  void noteHere(roster::ChildId child) {
    clinic.clock.advance(std::chrono::minutes(3));
    must(clinic.session.enterFlag(clinic.by, {.child = child,
                                              .kind = roster::FlagKind::other,
                                              .action = roster::FlagAction::note,
                                              .detail = "on this laptop",
                                              .decided = {}}));
  }
  std::size_t notes(roster::ChildId child) { return must(clinic.session.flags(child)).size(); }
};

} // namespace

TEST_CASE("A day goes to another laptop and comes back by the keys of the settings", "[case-294]") {
  Envelopes desk;
  const auto mina = desk.clinic.child("Mina");
  desk.seal("day.gkday", dayWords, u"seven grey herons"_s);
  CHECK(desk.troubles.join(u' ').contains(u"two passphrases differ"_s));
  CHECK_FALSE(std::filesystem::exists(desk.file("day.gkday")));
  desk.troubles.clear();
  desk.seal("day.gkday", u"short"_s, u"short"_s);
  CHECK(desk.troubles.join(u' ').contains(u"shorter than 8"_s));
  CHECK_FALSE(std::filesystem::exists(desk.file("day.gkday")));
  desk.troubles.clear();
  desk.seal("day", dayWords, dayWords); // the ending is put on
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.news.startsWith(u"Sealed: "_s));
  REQUIRE(std::filesystem::exists(desk.file("day.gkday")));
  desk.worksOn("day.gkday", "back.gkday", mina, false);

  desk.merge("back.gkday", u"seven white herons"_s);
  CHECK(desk.troubles.join(u' ').contains(u"This day envelope does not open."_s));
  CHECK(desk.notes(mina) == 0);
  desk.troubles.clear();
  desk.merge("back.gkday", dayWords);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.news.startsWith(u"Merged: "_s));
  CHECK(desk.notes(mina) == 1);
  // Twice, its own, and what is none: each says so, and nothing changes.
  for (const auto& [name, words] : {std::pair("back.gkday", u"was merged or sealed here already"_s),
                                    {"day.gkday", u"was merged or sealed here already"_s}}) {
    desk.troubles.clear();
    desk.merge(name, dayWords);
    CHECK(desk.troubles.join(u' ').contains(words));
  }
  must(base::replaceFile(desk.file("none.gkday"), "no envelope at all"));
  desk.troubles.clear();
  desk.merge("none.gkday", dayWords);
  CHECK(desk.troubles.join(u' ').contains(u"This day envelope does not open."_s));
  CHECK(desk.notes(mina) == 1);
  CHECK(must(desk.clinic.session.findings()).empty());
}

TEST_CASE("An envelope from a copy of this laptop is explained, and joined only when a person says "
          "that it was copied",
          "[case-243][case-294]") {
  Envelopes desk;
  const auto mina = desk.clinic.child("Mina");
  desk.seal("day.gkday", dayWords, dayWords);
  desk.worksOn("day.gkday", "back.gkday", mina, true);
  desk.noteHere(mina); // under the same name and number
  const auto before = desk.clinic.session.edition();
  const auto merge = [&](std::optional<int> answer) {
    desk.prompter.choices.clear();
    if (answer) desk.prompter.choices = {*answer};
    desk.prompter.decided.clear();
    desk.merge("back.gkday", dayWords);
    CHECK(desk.troubles.join(u'|') == QString());
    REQUIRE_FALSE(desk.prompter.decided.isEmpty());
    CHECK(desk.prompter.decided.back().contains(u"was used as two copies"_s));
    CHECK(desk.prompter.decided.back().contains(u"in the other one"_s));
  };
  merge(std::nullopt); // Esc
  CHECK(desk.news.startsWith(u"Not merged. Nothing is lost"_s));
  merge(1);
  CHECK(desk.news.startsWith(u"Not merged. Nothing is lost"_s));
  CHECK(desk.clinic.session.edition() == before);
  CHECK(desk.notes(mina) == 1);
  merge(0);
  CHECK(desk.news.contains(u"The copies are joined"_s));
  CHECK(desk.notes(mina) == 2);
  CHECK(must(desk.clinic.session.findings()).empty());
  // It is taken once, and not asked again.
  desk.merge("back.gkday", dayWords);
  CHECK(desk.troubles.join(u' ').contains(u"was merged or sealed here already"_s));
}

TEST_CASE("What an envelope brought for a joined card is said when it is merged", "[case-325]") {
  Envelopes desk;
  const auto first = desk.clinic.child("Mina", "Tolliver");
  const auto second = desk.clinic.child("Myna", "Tolliver");
  desk.seal("day.gkday", dayWords, dayWords);
  must(desk.clinic.session.joinCards(desk.clinic.by, first, second, "the school has one"));
  desk.worksOn("day.gkday", "back.gkday", second, false);
  desk.merge("back.gkday", dayWords);
  CHECK(desk.troubles.join(u'|') == QString());
  INFO(desk.news.toStdString());
  CHECK(desk.news.contains(u"1 joined card got entries"_s));
}

TEST_CASE("Whose day an envelope is for is asked, and the other laptop gets that school's students "
          "alone",
          "[case-424]") {
  Envelopes desk;
  auto& session = desk.clinic.session;
  const auto mina = desk.clinic.child("Mina");
  const auto thistle = must(session.enterSchool(desk.clinic.by, {"Thistle Hollow School", "TH"}));
  const auto ada = desk.clinic.child("Ada");
  must(session.moveChild(desk.clinic.by, ada, thistle, "2", "6", "the school's list"));
  desk.seal("none.gkday", dayWords, dayWords); // Esc
  CHECK(desk.prompter.asked.back().startsWith(u"Whose day is it?"_s));
  CHECK_FALSE(std::filesystem::exists(desk.file("none.gkday")));
  desk.prompter.choices = {1}; // after the school of the open day
  desk.seal("day.gkday", dayWords, dayWords);
  CHECK(desk.troubles.join(u'|') == QString());
  CHECK(desk.news.endsWith(u"It has only Thistle Hollow School's students."_s));
  const auto book = desk.file("thistle.gkbook");
  must(session::Session::unpackEnvelope(desk.file("day.gkday"), ui::toStd(dayWords), book,
                                        session::BookKind::throwaway));
  base::SeededRandom random{77};
  auto other = must(session::Session::open(book, base::LaptopId(base::makeUuid7({}, random)),
                                           {desk.clinic.clock, random}, store::Access::readOnly));
  CHECK(other.child(ada).has_value());
  CHECK(codeOf(other.child(mina)) == base::ErrorCode::notFound);
}
