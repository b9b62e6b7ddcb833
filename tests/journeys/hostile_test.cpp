#include "journeys/hostile_books.h"
#include "office/desk.h"
#include "session/letters/letters.h"
#include "support/clinic.h"

#include <ctime>
#include <iomanip>
#include <iostream>

using namespace gk;
using namespace gk::test;

namespace {

/// Processor time, since other programs may run beside; of a build for debugging or under a
/// sanitizer, which take several times as long.
class Timed {
 public:
  [[nodiscard]] double seconds() const {
    return static_cast<double>(std::clock() - begun_) / CLOCKS_PER_SEC;
  }

 private:
  std::clock_t begun_ = std::clock();
};
#ifdef GK_SANITIZED
constexpr double longest = 20;
#else
constexpr double longest = 1;
#endif

std::string codeIn(const Answer& answer) {
  const std::string head = "groovekeeper-office: ";
  const auto at = answer.err.rfind(head);
  if (answer.code != 2 || at == std::string::npos) return answer.code == 0 ? "fine" : "findings";
  const auto from = at + head.size();
  return answer.err.substr(from, answer.err.find(": ", from) - from);
}

void tell(const std::string& what, const std::string& code, double seconds) {
  std::cout << std::left << std::setw(52) << what << std::setw(22) << code << std::fixed
            << std::setprecision(2) << seconds << " s\n";
}

/// A whole book of a clinic, and one of another day of it to merge into.
struct Books {
  Books() {
    Clinic clinic(folder / "whole.gkbook", session::BookKind::throwaway);
    clinic.standardVisit(clinic.child("Mina", "Tolliver-Reed"));
    must(clinic.session.finish());
    must(clinic.session.backUp(folder / "mine.gkbook"));
  }
  Scratch folder;
};

} // namespace

TEST_CASE("Each hostile logbook is refused by its code, within a second, and hurts nothing else",
          "[case-261]") {
  const Books books;
  Desk desk;
  const auto mine = base::readFile(books.folder / "mine.gkbook").value();
  int count = 0;
  for (const auto& hostile : hostileBooks()) {
    INFO(hostile.what);
    const Scratch folder;
    const auto file = folder / "other.gkbook";
    std::filesystem::copy_file(books.folder / "whole.gkbook", file);
    hostile.make(file);
    const Timed opening;
    const auto copied = desk.call({"backup", file.string(), (folder / "copy.gkbook").string()});
    const auto code = codeIn(copied);
    tell(hostile.what, code, opening.seconds());
    INFO(copied.err);
    CHECK(code == hostile.code);
    CHECK(opening.seconds() < longest);
    const Timed merging;
    const auto merged =
        desk.call({"merge", (books.folder / "mine.gkbook").string(), file.string(), "--by", "OF"});
    INFO(merged.err);
    CHECK(codeIn(merged) == hostile.code);
    CHECK(merging.seconds() < longest);
    CHECK(base::readFile(books.folder / "mine.gkbook").value() == mine);
    const Timed checking;
    const auto checked = desk.call({"check", file.string()});
    CHECK((checked.code == 0) == (hostile.code == "fine"));
    CHECK(checking.seconds() < longest);
    // Last, since it may roll a journal back.
    const auto opened = desk.call({"add-school", file.string(), "--name", "X", "--code", "X"});
    CHECK(opened.code != 0);
    if (hostile.what.starts_with("a journal that"))
      CHECK(base::readFile(folder / "victim").value() == "letters to parents");
    ++count;
  }
  CHECK(count >= 30);
}

TEST_CASE("Each hostile list is refused by its code, within a second", "[case-261]") {
  Desk desk;
  const auto book = desk.makeBook();
  for (const auto& hostile : hostileLists()) {
    INFO(hostile.what);
    const Scratch folder;
    const auto file = folder / "list.csv";
    hostile.make(file);
    const Timed reading;
    const auto roster = desk.call({"import-roster", book, file.string(), "--school", "CL", "--term",
                                   "Fall 2026", "--by", "IM"});
    INFO(roster.err);
    const auto code = codeIn(roster);
    tell(hostile.what, code, reading.seconds());
    CHECK(code == hostile.code);
    CHECK(reading.seconds() < longest);
    const Timed rest;
    CHECK(desk.call({"import-authorizations", book, file.string(), "--dentist", "IM", "--on",
                     "2026-11-10", "--by", "IM"})
              .code == 2);
    CHECK(rest.seconds() < longest);
    for (const auto* what : {"curve", "retention"}) {
      const Timed table;
      CHECK(desk.call({"estimate", what, file.string()}).code == 2);
      CHECK(table.seconds() < longest);
    }
    const auto secret = desk.file("pass");
    std::vector<std::vector<std::string>> others{
        {"apply", book, file.string(), "--by", "IM"},
        {"merge-day", book, file.string(), "--by", "IM", "--day-passphrase-file", secret},
        {"unpack-day", file.string(), (folder / "new.gkbook").string(), "--day-passphrase-file",
         secret}};
    // Its half second is for the passphrase, so that only what is no file at all is given to it.
    if (hostile.code == "file.unreadable")
      others.push_back({"open-papers", book, file.string(), "--to", (folder / "out").string()});
    for (const auto& words : others) {
      const Timed other;
      const auto answer = desk.call(words);
      INFO(words.front() << ": " << answer.err);
      CHECK(answer.code == 2);
      CHECK(other.seconds() < longest);
    }
    CHECK_FALSE(std::filesystem::exists(folder / "new.gkbook"));
    CHECK_FALSE(std::filesystem::exists(folder / "out"));
    const Timed word;
    CHECK(desk.call({"change-passphrase", book, "--passphrase-file", file.string(),
                     "--new-passphrase-file", file.string()})
              .code == 2);
    // No folder to remember in: a hand for this one call, and the file is left alone.
    desk.call({"add-school", book, "--name", "X", "--code", "X", "--by", "IM", "--laptop-folder",
               file.string()});
    CHECK(word.seconds() < longest);
    const auto letters = base::Path(book).parent_path() / "letters";
    std::filesystem::create_directory(letters);
    std::filesystem::rename(file, letters / "own.txt");
    const auto templates = session::letterTemplates(book);
    REQUIRE_FALSE(templates);
    std::filesystem::remove_all(letters);
  }
}
