#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using roster::Likeness;
using session::Confirmed;
using test::codeOf;
using test::must;

namespace {

class Newcomers {
 public:
  test::Clinic clinic;
  roster::ChildId mina = clinic.child("Mina", "Tolliver"); // March 14, 2019
  std::string number = must(clinic.session.child(mina)).value.number;

  base::Result<roster::ChildId> enroll(const std::string& number, const std::string& first,
                                       const std::string& last, const std::string& birth,
                                       Confirmed isAnother = Confirmed::no) {
    return clinic.session.enrollChild(clinic.by, card(number), who(first, last, birth),
                                      Confirmed::no, isAnother);
  }
  [[nodiscard]] roster::Child card(const std::string& number) const {
    return {.number = number,
            .birth = {2019, 3},
            .school = clinic.school,
            .grade = "2",
            .room = "7",
            .note = {}};
  }
  static session::Identity who(const std::string& first, const std::string& last,
                               const std::string& birth) {
    return {.first = first, .last = last, .birth = must(base::Date::parse(birth))};
  }
  std::vector<Likeness> likenesses(const std::string& number, const session::Identity& identity) {
    std::vector<Likeness> found;
    for (const auto& near : must(clinic.session.nearMatches(number, identity)))
      found.push_back(near.why);
    return found;
  }
};

} // namespace

TEST_CASE("A name and birth date already on the roster make no second child unasked",
          "[case-107]") {
  Newcomers book;
  const auto refused =
      book.enroll(roster::withCheckDigit("2001"), "mina", "TOLLIVER", "2019-03-14");
  CHECK(codeOf(refused) == ErrorCode::ruleSameChild);
  CHECK(refused.error().detail.find(book.number) != std::string::npos);
  CHECK(refused.error().detail.find("Mina") == std::string::npos);
  CHECK(refused.error().detail.find("olliver") == std::string::npos);
  CHECK(must(book.clinic.session.findChildren("tolliver")).size() == 1);
  must(book.enroll(roster::withCheckDigit("2001"), "Mina", "Tolliver", "2019-03-14",
                   Confirmed::yes));
  CHECK(must(book.clinic.session.findChildren("tolliver")).size() == 2);
}

TEST_CASE("A name a slip of the pen away is asked about, a namesake of another year is not",
          "[case-107]") {
  Newcomers book;
  const auto number = roster::withCheckDigit("2001");
  const auto like = [&](const char* first, const char* last, const char* birth) {
    return book.likenesses(number, Newcomers::who(first, last, birth));
  };
  CHECK(like("Mina", "Toliver", "2019-03-14") == std::vector{Likeness::nearName});
  CHECK(like("Tolliver", "Mina", "2019-03-14") == std::vector{Likeness::nearName});
  CHECK(like("Mina", "Tolliver", "2019-04-14") == std::vector{Likeness::nearBirth});
  CHECK(like("Wren", "Tolliver", "2019-03-14").empty()); // a twin
  CHECK(like("Mina", "Tolliver", "2017-08-02").empty());
  CHECK(codeOf(book.enroll(number, "Mina", "Toliver", "2019-03-14")) == ErrorCode::ruleSameChild);
  must(book.enroll(number, "Mina", "Tolliver", "2019-04-14"));
}

TEST_CASE("A number that lacks its check digit is near the child's, and opens no other",
          "[case-108]") {
  Newcomers book;
  const auto near = must(book.clinic.session.nearMatches("1043"));
  REQUIRE(near.size() == 1);
  CHECK(near.front().child.child == book.mina);
  CHECK(near.front().why == Likeness::number);
  CHECK(must(book.clinic.session.nearMatches(book.number)).empty());
  // A whole number whose digits are another's without the check digit.
  const auto taken = roster::withCheckDigit("200");
  std::string digits = taken;
  std::erase(digits, '-');
  must(book.enroll(roster::withCheckDigit(digits), "Wren", "Castle", "2019-03-02"));
  CHECK(codeOf(book.enroll(taken, "Idris", "Sorrel", "2019-03-05")) == ErrorCode::ruleSameChild);
}

TEST_CASE("Two lines of one roster that are one child are refused together", "[case-107]") {
  Newcomers book;
  const auto ada = Newcomers::who("Ada", "Quill", "2019-03-20");
  const auto refused = book.clinic.session.enrollRoster(
      book.clinic.by, {{book.card(roster::withCheckDigit("2001")), ada},
                       {book.card(roster::withCheckDigit("2002")), ada}});
  CHECK(codeOf(refused) == ErrorCode::ruleSameChild);
  CHECK(must(book.clinic.session.findChildren("quill")).empty());
}

TEST_CASE("Child, form and health alert are entered together or not at all", "[case-108]") {
  Newcomers book;
  auto& session = book.clinic.session;
  session::NewChild made{book.card(roster::withCheckDigit("2001")),
                         Newcomers::who("Ada", "Quill", "2019-03-20")};
  made.alert = [](roster::ChildId child) {
    return roster::MedicalFlag{
        child, roster::FlagKind::latexAllergy, roster::FlagAction::stop, "", false, ""};
  };
  made.form = [&](roster::ChildId child) {
    auto form = book.clinic.form(child);
    form.allowed = {roster::Service::sealants}; // without screening
    return form;
  };
  CHECK(codeOf(session.enrollRoster(book.clinic.by, {made})) == ErrorCode::ruleConsentForm);
  CHECK(must(session.findChildren("quill")).empty());
  made.form = [&](roster::ChildId child) { return book.clinic.form(child); };
  const auto ada = must(session.enrollRoster(book.clinic.by, {made})).front();
  CHECK(must(session.flags(ada)).size() == 1);
  CHECK(must(session.consents(ada)).size() == 1);
  CHECK(codeOf(session.enterConsent(book.clinic.by, book.clinic.form(ada),
                                    roster::MedicalFlag{book.mina, roster::FlagKind::asthma,
                                                        roster::FlagAction::ask, "", false, ""})) ==
        ErrorCode::notFound);
}
