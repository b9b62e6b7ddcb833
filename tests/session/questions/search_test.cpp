#include "base/text/text.h"
#include "support/clinic.h"

#include <algorithm>
#include <array>
#include <random>

using namespace gk;
using test::must;

namespace {

/// Who is in the book, kept beside it, and the plain definition of finding.
struct Known {
  roster::ChildId child;
  std::string number;
  std::string shown;
  std::string legal;
};

std::string digitsOf(const std::string& text) {
  std::string digits;
  std::ranges::copy_if(text, std::back_inserter(digits),
                       [](char c) { return c >= '0' && c <= '9'; });
  return digits;
}

bool fits(const Known& known, const std::string& text) {
  const auto digits = digitsOf(text);
  if (!digits.empty() && digitsOf(known.number).starts_with(digits)) return true;
  const auto wanted = base::folded(text);
  if (wanted.empty()) return false;
  const auto all = base::folded(known.shown + " " + known.legal);
  return std::ranges::all_of(base::split(wanted, ' '),
                             [&](auto word) { return all.find(word) != std::string::npos; });
}

constexpr std::array firsts{"Zoë", "Mina", "Nils", "Anaïs", "O’Neil", "Suharto", "Jo-Ann", "Žofie"};
constexpr std::array lasts{"Núñez O’Brien", "Farrowgate", "Tolliver-Reed", "",
                           "Hollowell",     "Brück"};

/// A clinic whose children come from a few names, so that many share one.
class Roster {
 public:
  roster::ChildId enroll() {
    session::Identity identity{.first = pick(firsts),
                               .last = pick(lasts),
                               .nameUsed = chance_() % 4 == 0 ? pick(firsts) : std::string(),
                               .birth = must(base::Date::parse("2019-03-14"))};
    const auto number = roster::withCheckDigit(std::to_string(2000 + count_++));
    const auto child =
        must(clinic.session.enrollChild(clinic.by,
                                        {.number = number,
                                         .birth = {2019, 3},
                                         .school = clinic.school,
                                         .grade = "2",
                                         .room = "6",
                                         .note = {}},
                                        identity, session::Confirmed::no, session::Confirmed::yes));
    known.push_back({child, number, identity.shownName(), identity.legalName()});
    return child;
  }

  template <std::size_t size>
  std::string pick(const std::array<const char*, size>& words) {
    return words[chance_() % size];
  }

  test::Clinic clinic;
  std::vector<Known> known;

 private:
  std::mt19937 chance_{20261117};
  int count_ = 0;
};

/// Finding says what the plain definition says, for parts of every name and number.
void agrees(session::Session& session, const std::vector<Known>& known) {
  for (const char* text : {"zoe", "NUNEZ", "brien zo", "o'neil", "reed", "jo ann", "zofie", "bruck",
                           "a", "200", "2003", "2010-", "nobody", " ", ""}) {
    std::vector<roster::ChildId> expected;
    for (const auto& one : known)
      if (fits(one, text)) expected.push_back(one.child);
    std::vector<roster::ChildId> found;
    for (const auto& one : must(session.findChildren(text, 1000)))
      found.push_back(one.child);
    INFO(text);
    CHECK(found == expected);
  }
}

} // namespace

TEST_CASE("Finding says what its plain definition says, whoever comes, moves or is undone",
          "[case-4][case-17]") {
  Roster book;
  auto& clinic = book.clinic;
  for (int i = 0; i < 60; ++i)
    book.enroll();
  agrees(clinic.session, book.known);

  book.enroll();
  agrees(clinic.session, book.known);

  must(clinic.session.moveChild(clinic.by, book.known[3].child, clinic.school, "3", "9", "moved"));
  std::ranges::rotate(book.known.begin() + 3, book.known.begin() + 4, book.known.end());
  agrees(clinic.session, book.known);
  CHECK(must(clinic.session.findChildren(book.known.back().number)).at(0).room == "9");

  book.enroll();
  agrees(clinic.session, book.known);
  must(clinic.session.undo(clinic.by, {base::Station::board, clinic.day}));
  book.known.pop_back();
  agrees(clinic.session, book.known);
}

TEST_CASE("Reading the roll page by page finds what reading it at once finds", "[case-4]") {
  Roster book;
  auto& clinic = book.clinic;
  for (int i = 0; i < 40; ++i)
    book.enroll();
  clinic.session.lock();
  must(clinic.session.unlock(test::Clinic::passphrase));
  CHECK_FALSE(must(clinic.session.readRoll(7)));
  CHECK_FALSE(must(clinic.session.readRoll(7)));
  // Acts between two pages: one already read moves, one comes.
  must(clinic.session.moveChild(clinic.by, book.known[1].child, clinic.school, "3", "9", "moved"));
  std::ranges::rotate(book.known.begin() + 1, book.known.begin() + 2, book.known.end());
  book.enroll();
  int pages = 0;
  while (!must(clinic.session.readRoll(7)))
    ++pages;
  CHECK(pages == 4);
  agrees(clinic.session, book.known);
}

TEST_CASE("Locked, a child is found by number alone; unlocked, by name again", "[case-4]") {
  Roster book;
  auto& session = book.clinic.session;
  book.enroll();
  const auto& one = book.known[0];
  CHECK(must(session.findChildren(one.shown)).size() == 1);
  session.lock();
  CHECK(must(session.findChildren(one.shown)).empty());
  CHECK(must(session.findChildren("2000")).at(0).name == one.number);
  CHECK(must(session.names()).empty());
  must(session.unlock(test::Clinic::passphrase));
  CHECK(must(session.findChildren(one.shown)).at(0).name == one.shown);
}

TEST_CASE("A child whom another laptop brought is found at once", "[case-4]") {
  Roster book;
  auto& clinic = book.clinic;
  for (int i = 0; i < 5; ++i)
    book.enroll();
  const auto path = *clinic.folder / "second.gkbook";
  must(clinic.session.backUp(path));
  // The first goes on while the second enrolls, so that the merge brings rows of an earlier time.
  base::SeededRandom random(2);
  {
    auto second = must(session::Session::open(
        path, base::LaptopId(base::makeUuid7(clinic.clock.now().at, random)),
        {clinic.clock, random}, store::Access::readWrite, session::BookKind::throwaway));
    must(second.unlock(test::Clinic::passphrase));
    session::Identity identity{.first = "Wren", .birth = must(base::Date::parse("2019-03-14"))};
    must(second.enrollChild(clinic.by,
                            {.number = roster::withCheckDigit("4001"),
                             .birth = {2019, 3},
                             .school = clinic.school,
                             .grade = "2",
                             .room = {},
                             .note = {}},
                            identity));
  }
  clinic.clock.advance(std::chrono::minutes(1));
  book.enroll();
  CHECK(must(clinic.session.findChildren("wren")).empty());
  must(clinic.session.absorb(path));
  CHECK(must(clinic.session.findChildren("wren")).size() == 1);
  CHECK(must(clinic.session.findChildren("4001")).size() == 1);
}
