#include "crash/file_verbs.h"

#include "crash/history.h"
#include "session/book/archive.h"
#include "session/book/book_facts.h"

#include <sys/wait.h>
#include <unistd.h>

namespace gk::test {

namespace {

constexpr const char* dayWords = "seven gray herons";

base::By hygienistIn(session::Session& book) {
  for (const auto& member : must(book.members()))
    if (member.value.role == roster::Role::hygienist) return {member.id, {}};
  return {};
}

} // namespace

Room::Room() {
  Clinic clinic(book, session::BookKind::throwaway);
  must(clinic.session.finish());
  must(clinic.session.backUp(before));
  const auto apart = folder / "apart";
  std::filesystem::create_directory(apart);
  must(clinic.session.backUp(apart / "other.gkbook"));
  {
    auto other = must(session::Session::open(
        apart / "other.gkbook",
        base::LaptopId(base::makeUuid7(clinic.clock.now().at, clinic.random)),
        {clinic.clock, clinic.random}, store::Access::readWrite, session::BookKind::throwaway));
    must(other.sealDay(hygienistIn(other), folder / "day.gkday", {}, dayWords));
    must(other.finish());
  }
  clinic.child("Mina");
  must(clinic.session.finish());
}

session::Session Called::open(const char* name) {
  return must(session::Session::open(folder / name, laptop, world, store::Access::readWrite,
                                     session::BookKind::throwaway));
}

session::Snapshot Called::still(session::Session& book) {
  auto draft = must(book.snapshot());
  while (!must(draft->copy(64)))
    ;
  return must(draft->finish());
}

const std::vector<FileVerb>& fileVerbs() {
  static const std::vector<FileVerb> all{
      {"a logbook is opened and closed", [](Called& at) { must(at.open("day.gkbook").finish()); }},
      {"a logbook is made",
       [](Called& at) {
         roster::Program program;
         program.name = "A program";
         program.county = "Larkmere";
         program.phone = "000-555-0142";
         must(session::Session::create(at.folder / "new.gkbook", Clinic::passphrase, at.laptop,
                                       at.world, program, session::BookKind::throwaway));
       }},
      {"a backup is made",
       [](Called& at) {
         auto book = at.open("day.gkbook");
         must(book.backUp(at.folder / "backup.gkbook"));
       }},
      {"a backup is made beside the work",
       [](Called& at) {
         auto book = at.open("day.gkbook");
         auto still = at.still(book);
         must(still.backUp(at.folder / "backup.gkbook", {}));
       }},
      {"an archive is written",
       [](Called& at) {
         auto book = at.open("day.gkbook");
         auto still = at.still(book);
         must(session::writeArchive(still, at.folder / "archive.gkbook", {}));
       }},
      {"a backup is restored",
       [](Called& at) {
         must(session::restoreBackup(at.folder / "before.gkbook", at.folder / "day.gkbook",
                                     at.world, {}));
       }},
      {"a backup is restored where nothing is",
       [](Called& at) {
         must(session::restoreBackup(at.folder / "before.gkbook", at.folder / "restored.gkbook",
                                     at.world, {}));
       }},
      {"a copy is merged",
       [](Called& at) {
         auto book = at.open("before.gkbook");
         must(book.absorb(at.folder / "day.gkbook", {.by = hygienistIn(book)}));
       },
       1},
      {"a day envelope is sealed",
       [](Called& at) {
         auto book = at.open("day.gkbook");
         must(book.sealDay(hygienistIn(book), at.folder / "new.gkday", {}, dayWords));
       },
       1},
      {"a day envelope is merged",
       [](Called& at) {
         auto book = at.open("day.gkbook");
         must(book.absorbEnvelope(hygienistIn(book), at.folder / "day.gkday", dayWords));
       },
       1},
      {"a day envelope is unpacked",
       [](Called& at) {
         must(session::Session::unpackEnvelope(at.folder / "day.gkday", dayWords,
                                               at.folder / "unpacked.gkbook",
                                               session::BookKind::throwaway));
       }},
      {"the passphrase is changed",
       [](Called& at) {
         auto book = at.open("day.gkbook");
         must(book.unlock(Clinic::passphrase));
         must(book.changePassphrase(hygienistIn(book), Clinic::passphrase, "another set of words"));
       },
       1},
      {"the key of the names is replaced",
       [](Called& at) {
         auto book = at.open("day.gkbook");
         must(book.unlock(Clinic::passphrase));
         must(book.replaceBookKey(hygienistIn(book),
                                  {Clinic::passphrase, "another set of words", "a lost laptop"}));
       },
       1},
      {"a student is erased",
       [](Called& at) {
         auto book = at.open("day.gkbook");
         const auto child = must(book.cardNumbered(roster::withCheckDigit("1043")));
         const auto plan = must(book.erasurePlan(child));
         must(book.eraseStudent(hygienistIn(book), child,
                                {"the mother, by letter", "records law, section 4", "asked for"},
                                plan.total));
       },
       1},
      {"a copy that lists an erasure is merged",
       [](Called& at) {
         must(at.open("day.gkbook").backUp(at.folder / "copy.gkbook"));
         std::int64_t entries = 0;
         {
           auto copy = at.open("copy.gkbook");
           const auto child = must(copy.cardNumbered(roster::withCheckDigit("1043")));
           entries = must(copy.erasurePlan(child)).total;
           must(copy.eraseStudent(hygienistIn(copy), child,
                                  {"the mother, by letter", "records law, section 4", "asked for"},
                                  entries));
           must(copy.finish());
         }
         auto book = at.open("day.gkbook");
         must(book.absorb(at.folder / "copy.gkbook",
                          {.erasures = session::ErasureYes{hygienistIn(book), entries},
                           .by = hygienistIn(book)}));
       },
       2},
  };
  return all;
}

std::optional<std::uint64_t> inAnotherProcess(const std::function<std::uint64_t()>& work) {
  int ends[2];
  base::require(::pipe(ends) == 0, "no pipe");
  const pid_t child = ::fork();
  if (child == 0) {
    const auto count = work();
    const bool isTold = ::write(ends[1], &count, sizeof count) == sizeof count;
    ::_exit(isTold ? 0 : 1);
  }
  ::close(ends[1]);
  std::uint64_t count = 0;
  const bool isHeard = ::read(ends[0], &count, sizeof count) == sizeof count;
  ::close(ends[0]);
  int status = 0;
  ::waitpid(child, &status, 0);
  return isHeard ? std::optional(count) : std::nullopt;
}

void allIsWhole(const base::Path& folder, const base::Path& book, std::size_t acts,
                std::size_t more) {
  std::size_t most = 0;
  std::vector<base::Path> books;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    if (entry.path().extension() == ".gkbook") books.push_back(entry.path());
  REQUIRE(std::filesystem::exists(book));
  for (const auto& path : books) {
    INFO(path.filename());
    std::filesystem::permissions(path, std::filesystem::perms::owner_write,
                                 std::filesystem::perm_options::add); // an archive's are not
    const auto found = lookAgain(path);
    INFO(found.why);
    CHECK_FALSE(found.isRefused);
    most = std::max(most, found.ends.size());
  }
  CHECK(most >= acts);
  CHECK(most <= acts + more);
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    CHECK_FALSE(entry.path().filename().string().starts_with(".groovekeeper"));
}

} // namespace gk::test
