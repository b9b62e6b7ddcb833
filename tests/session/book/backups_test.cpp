#include "session/book/backups.h"
#include "session/values/short_laptop.h"
#include "support/clinic.h"

#include <algorithm>
#include <fstream>
#include <set>

using namespace gk;
using namespace gk::test;
using base::ErrorCode;

namespace {

session::Snapshot snapshotOf(session::Session& book) {
  auto draft = must(book.snapshot());
  while (!must(draft->copy(8)))
    ;
  return must(draft->finish());
}

std::set<std::string> namesIn(const base::Path& folder) {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    names.insert(entry.path().filename().string());
  return names;
}

/// Stopped at the so-manieth time it is asked; 0 counts how often that is.
class StopAt {
 public:
  explicit StopAt(int time) : time_(time) {}
  base::Progress progress() {
    return {[this] { return ++asked_ == time_ || (time_ > 0 && asked_ > time_); }, {}};
  }
  [[nodiscard]] int asked() const { return asked_; }

 private:
  int time_;
  int asked_ = 0;
};

} // namespace

TEST_CASE("A snapshot is the book at one moment, whatever is written while it is made",
          "[case-277]") {
  Clinic clinic;
  clinic.child("Mina");
  auto draft = must(clinic.session.snapshot());
  // One page at a time, and an act between each two: the copy must be whole all the same.
  int acts = 0;
  while (!must(draft->copy(1)))
    if (acts < 40) {
      clinic.child("Lupe " + std::to_string(acts));
      ++acts;
    }
  CHECK(acts == 40);
  auto copy = must(draft->finish());
  clinic.child("Too late");
  CHECK(must(copy.findings({})).empty());
  CHECK(must(copy.facts()).children == 41);
  CHECK(copy.isUnlocked());
  CHECK(must(copy.names()).size() == 41);
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("A snapshot leaves no file behind and its key is its own", "[case-277]") {
  Clinic clinic;
  clinic.child("Mina");
  const auto before = namesIn(clinic.folder->path());
  {
    auto copy = snapshotOf(clinic.session);
    CHECK(namesIn(clinic.folder->path()) == before); // so a crash leaves none either
    clinic.session.lock();
    CHECK(copy.isUnlocked());
    CHECK(must(copy.names()).size() == 1);
  }
  CHECK(namesIn(clinic.folder->path()) == before);
  CHECK_FALSE(snapshotOf(clinic.session).isUnlocked());
}

TEST_CASE("Work that is stopped ends at once, and what was stopped can be asked again",
          "[case-276]") {
  Clinic clinic;
  for (int i = 0; i < 30; ++i)
    clinic.child("Mina " + std::to_string(i));
  auto copy = snapshotOf(clinic.session);
  copy.watch({[] { return true; }, {}});
  CHECK(codeOf(copy.findings({[] { return true; }, {}})) == ErrorCode::workCanceled);
  const auto target = *clinic.folder / "copy.gkbook";
  StopAt never(0);
  must(copy.backUp(*clinic.folder / "whole.gkbook", never.progress()));
  REQUIRE(never.asked() > 5);
  const auto before = namesIn(clinic.folder->path());
  for (int time = 1; time <= never.asked(); time += 1 + never.asked() / 20) {
    StopAt stop(time);
    CAPTURE(time);
    CHECK(codeOf(copy.backUp(target, stop.progress())) == ErrorCode::workCanceled);
    CHECK(namesIn(clinic.folder->path()) == before);
  }
  must(copy.backUp(target, {}));
}

TEST_CASE("A merge that is stopped anywhere leaves the book as it was", "[case-276]") {
  Clinic clinic;
  const auto other = *clinic.folder / "second.gkbook";
  must(clinic.session.backUp(other));
  {
    base::SeededRandom random(7);
    auto second = must(session::Session::open(
        other, base::LaptopId(base::makeUuid7(clinic.clock.now().at, random)),
        {clinic.clock, random}, store::Access::readWrite, session::BookKind::throwaway));
    must(second.unlock(Clinic::passphrase));
    for (int i = 0; i < 30; ++i)
      must(second.enterIncident(clinic.by, {.day = clinic.day,
                                            .type = followup::IncidentType::equipment,
                                            .happened = clinic.clock.now(),
                                            .done = "swept up a cup"}));
  }
  const auto facts = [&] { return must(snapshotOf(clinic.session).facts()); };
  const auto before = facts();
  StopAt never(0);
  int asked = 0;
  {
    // How often it asks is found on a copy, since merging twice brings nothing.
    const auto twin = *clinic.folder / "twin.gkbook";
    must(clinic.session.backUp(twin));
    auto open = must(session::Session::open(twin, clinic.laptop, {clinic.clock, clinic.random}));
    CHECK(must(open.absorb(other, {}, never.progress())).newEntries == 30);
    asked = never.asked();
  }
  REQUIRE(asked > 3);
  for (int time = 1; time <= asked; time += 1 + asked / 30) {
    StopAt stop(time);
    CAPTURE(time, asked);
    const auto merged = clinic.session.absorb(other, {}, stop.progress());
    if (merged) break; // asked once less than on the twin, which is another book
    CHECK(codeOf(merged) == ErrorCode::workCanceled);
    CHECK(facts().hands.size() == before.hands.size());
  }
  CHECK(must(clinic.session.absorb(other)).newEntries >= 0);
  CHECK(facts().hands.size() == 2);
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("A backup goes to the second place by name, verified, and older ones are let go",
          "[case-279][case-280]") {
  Clinic clinic;
  clinic.child("Mina");
  const Scratch stick;
  const auto copyOn = [&](const char* iso) {
    auto copy = snapshotOf(clinic.session);
    return must(session::backUpInto(copy, stick.path(), *base::Date::parse(iso), {}));
  };
  // What lies on the stick already: another program's book under a name like ours, a text, another
  // laptop's backup.
  const followup::BackupOwner owner{clinic.session.path().stem().string(),
                                    session::shortName(clinic.laptop)};
  const auto impostor = followup::backupFileName(owner, *base::Date::parse("2026-08-03"));
  {
    base::SeededRandom random(99);
    must(session::Session::create(stick / impostor, Clinic::passphrase, clinic.laptop,
                                  {clinic.clock, random}, must(clinic.session.program()).value,
                                  session::BookKind::throwaway));
  }
  const auto text = followup::backupFileName(owner, *base::Date::parse("2026-08-04"));
  std::ofstream(stick / text) << "not a logbook";
  const auto other =
      followup::backupFileName({owner.book, "zzzz"}, *base::Date::parse("2026-08-05"));
  must(clinic.session.backUp(stick / other));

  const auto first = copyOn("2026-08-10");
  CHECK(first.path.filename() == followup::backupFileName(owner, *base::Date::parse("2026-08-10")));
  int removed = 0;
  for (int day = 11; day <= 28; ++day)
    removed += copyOn(("2026-08-" + std::to_string(day)).c_str()).removed;
  const auto names = namesIn(stick.path());
  CHECK(removed == 9);
  CHECK(names.size() == 10 + 3);
  CHECK(names.contains(impostor));
  CHECK(names.contains(text));
  CHECK(names.contains(other));
  CHECK_FALSE(names.contains(first.path.filename().string()));
  const auto again = copyOn("2026-08-28");
  CHECK(again.path.filename().string().ends_with("-2.gkbook"));
  CHECK(namesIn(stick.path()).size() == 13);
}

TEST_CASE("A backup that fails lets nothing go", "[case-280]") {
  Clinic clinic;
  auto copy = snapshotOf(clinic.session);
  CHECK(codeOf(session::backUpInto(copy, *clinic.folder / "no-stick", clinic.clock.now().date(),
                                   {})) == ErrorCode::fileNotFound);
  const Scratch stick;
  for (int day = 1; day <= 20; ++day)
    must(session::backUpInto(copy, stick.path(),
                             *base::Date::of(2026, 9, static_cast<unsigned>(day)), {}));
  const auto before = namesIn(stick.path());
  CHECK(before.size() == 10);
  CHECK(codeOf(session::backUpInto(copy, stick.path(), *base::Date::parse("2026-09-21"),
                                   {[] { return true; }, {}})) == ErrorCode::workCanceled);
  CHECK(namesIn(stick.path()) == before);
}

TEST_CASE("A school day that no backup of this laptop has is named until one has it",
          "[case-282]") {
  Clinic clinic;
  const auto today = clinic.clock.now().date();
  CHECK_FALSE(must(clinic.session.dayNotBackedUp({}))); // today's day is not over
  clinic.clock.advance(std::chrono::hours(24));
  CHECK(must(clinic.session.dayNotBackedUp({})) == today);
  CHECK(must(clinic.session.dayNotBackedUp(today.plusDays(-1))) == today);
  CHECK_FALSE(must(clinic.session.dayNotBackedUp(today)));
  must(clinic.session.noteBackup(clinic.by, {clinic.day, "x.gkbook", false}));
  CHECK_FALSE(must(clinic.session.dayNotBackedUp({})));
}
