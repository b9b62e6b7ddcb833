#include "session/book/snapshot.h"
#include "support/clinic.h"

#include <algorithm>
#include <fstream>

using namespace gk;
using namespace gk::test;
using base::ErrorCode;

namespace {

/// A clinic's book, closed, with a backup from before its last three acts.
class Shelf {
 public:
  Scratch folder;
  base::Path present = folder / "day.gkbook";
  base::Path backup = folder / "backup.gkbook";
  base::ManualClock clock{base::atLocal(*base::Date::parse("2026-11-19"), std::chrono::hours(8),
                                        std::chrono::hours(-5))};
  base::SeededRandom random{3};
  base::LaptopId laptop{base::Uuid{}};

  Shelf() {
    Clinic clinic(present, session::BookKind::throwaway);
    laptop = clinic.laptop;
    clinic.child("Mina");
    must(clinic.session.finish());
    must(clinic.session.backUp(backup));
    clinic.clock.advance(std::chrono::hours(24));
    clinic.child("Lupe");
    must(clinic.session.finish());
  }
  [[nodiscard]] session::World world() { return {clock, random}; }
  session::RestorePreview preview() {
    return must(session::previewRestore(backup, present, world(), {}));
  }
  std::size_t childrenIn(const base::Path& file) {
    return static_cast<std::size_t>(must(session::verifyBackup(file, world(), {})).children);
  }
};

} // namespace

TEST_CASE("Before a restore the backup is verified and what it has is shown", "[case-283]") {
  Shelf shelf;
  const auto preview = shelf.preview();
  CHECK_FALSE(preview.isOtherProgram);
  CHECK(preview.backup.children == 1);
  CHECK(preview.backup.days == 1);
  CHECK_FALSE(preview.backup.program.empty());
  REQUIRE(preview.lost.size() == 1);
  CHECK(preview.lost.front().laptop == shelf.laptop);
  CHECK(preview.lost.front().acts.front().date().iso() == "2026-11-18");
  const auto words = session::lossWords(preview);
  CHECK(words.find("on 1 day would not be in the restored logbook") != std::string::npos);
  const auto table = session::previewTable(preview);
  REQUIRE(table.rows.size() == 1);
  CHECK(table.rows[0][0].text().find("November 18, 2026") != std::string::npos);
  CHECK(table.rows[0][3] == "Nov 17, 2026, 9:00 AM");
}

TEST_CASE("A backup that has all that is here says that nothing would be lost", "[case-283]") {
  Shelf shelf;
  const auto newest = shelf.folder / "newest.gkbook";
  std::filesystem::copy_file(shelf.present, newest);
  const auto preview = must(session::previewRestore(newest, shelf.present, shelf.world(), {}));
  CHECK(preview.lost.empty());
  CHECK(session::lossWords(preview).starts_with("Nothing would be lost"));
}

TEST_CASE("A damaged backup is refused before anything is shown of it", "[case-283]") {
  Shelf shelf;
  const auto size = std::filesystem::file_size(shelf.backup);
  for (const double place : {0.3, 0.5, 0.7, 0.95}) {
    const auto copy = shelf.folder / "bad.gkbook";
    std::filesystem::copy_file(shelf.backup, copy,
                               std::filesystem::copy_options::overwrite_existing);
    std::fstream file(copy, std::ios::in | std::ios::out | std::ios::binary);
    file.seekp(static_cast<std::streamoff>(static_cast<double>(size) * place));
    file << std::string(4096, '\x5a');
    file.close();
    CAPTURE(place);
    CHECK_FALSE(session::previewRestore(copy, shelf.present, shelf.world(), {}));
  }
  CHECK(codeOf(session::previewRestore(shelf.folder / "none", shelf.present, shelf.world(), {})) ==
        ErrorCode::fileNotFound);
}

TEST_CASE("Another program's backup, and a present book that cannot be read, are said",
          "[case-283]") {
  Shelf shelf;
  const auto foreign = shelf.folder / "foreign.gkbook";
  {
    base::SeededRandom other(99);
    Clinic clinic;
    must(session::Session::create(foreign, Clinic::passphrase, shelf.laptop, {shelf.clock, other},
                                  must(clinic.session.program()).value,
                                  session::BookKind::throwaway));
  }
  const auto preview = must(session::previewRestore(foreign, shelf.present, shelf.world(), {}));
  CHECK(preview.isOtherProgram);
  CHECK(session::lossWords(preview).find("ANOTHER program") != std::string::npos);
  std::ofstream(shelf.present, std::ios::trunc) << "spilled coffee";
  const auto blind = shelf.preview();
  CHECK(blind.unread);
  CHECK(session::lossWords(blind).find("cannot be read") != std::string::npos);
}

TEST_CASE("A restore keeps the present book under another name and opens normally", "[case-284]") {
  Shelf shelf;
  // A name that an earlier restore took is never overwritten.
  std::ofstream(shelf.folder / "day-before-restore-2026-11-19.gkbook") << "earlier";
  const auto restored =
      must(session::restoreBackup(shelf.backup, shelf.present, shelf.world(), {}));
  CHECK(restored.book == shelf.present);
  CHECK(restored.kept.filename() == "day-before-restore-2026-11-19-2.gkbook");
  CHECK(shelf.childrenIn(restored.kept) == 2);
  CHECK(shelf.childrenIn(shelf.present) == 1);
  auto book = must(session::Session::open(shelf.present, shelf.laptop, shelf.world()));
  must(book.unlock(Clinic::passphrase));
  CHECK(must(book.findings()).empty());
}

TEST_CASE("A restore to where no book is makes it", "[case-284]") {
  Shelf shelf;
  const auto target = shelf.folder / "fresh.gkbook";
  const auto restored = must(session::restoreBackup(shelf.backup, target, shelf.world(), {}));
  CHECK(restored.kept.empty());
  CHECK(shelf.childrenIn(target) == 1);
}

TEST_CASE("A restore that fails or is stopped leaves the present book where it was", "[case-284]") {
  Shelf shelf;
  const auto bytes = must(base::readFile(shelf.present));
  int asked = 0;
  must(session::restoreBackup(shelf.backup, shelf.folder / "try.gkbook", shelf.world(),
                              {[&] { return ++asked < 0; }, {}}));
  REQUIRE(asked >= 3);
  for (int time = 1; time < asked; time += 1 + asked / 10) {
    int now = 0;
    CAPTURE(time);
    CHECK(codeOf(session::restoreBackup(shelf.backup, shelf.present, shelf.world(),
                                        {[&] { return ++now >= time; }, {}})) ==
          ErrorCode::workCanceled);
    CHECK(must(base::readFile(shelf.present)) == bytes);
  }
  CHECK_FALSE(std::filesystem::exists(shelf.folder / "day-restoring.gkbook"));
  CHECK_FALSE(session::restoreBackup(shelf.present, shelf.present, shelf.world(), {}));
  {
    const auto open = must(session::Session::open(shelf.present, shelf.laptop, shelf.world()));
    CHECK(codeOf(session::restoreBackup(shelf.backup, shelf.present, shelf.world(), {})) ==
          ErrorCode::storeInUse);
  }
  CHECK(must(base::readFile(shelf.present)) == bytes);
}
