#include "session/book/snapshot.h"
#include "support/clinic.h"

using namespace gk;
using namespace gk::test;
using base::ErrorCode;

namespace {

session::Snapshot stillOf(session::Session& book) {
  auto draft = must(book.snapshot());
  while (!must(draft->copy(64)))
    ;
  return must(draft->finish());
}

const std::vector<exchange::Paper> twoPapers{
    {"close-out.html", "<p>Mina Tolliver-Reed</p>"},
    {"referrals.pdf", std::string("%PDF-1.4\n\0binary", 16)}};

std::string sealedBy(session::Session& book) {
  return must(stillOf(book).sealPapers(twoPapers));
}

} // namespace

TEST_CASE("Sealed papers open with their logbook and say nothing to anyone else", "[case-311]") {
  Clinic clinic;
  auto& book = clinic.session;
  const auto file = sealedBy(book);
  CHECK(file.find("Mina") == std::string::npos);
  CHECK(file.find("close-out") == std::string::npos);
  CHECK(must(book.openPapers(file)) == twoPapers);
  CHECK(sealedBy(book) != file); // a nonce of its own

  SECTION("altered at any byte they do not open") {
    for (std::size_t i = 0; i < file.size(); ++i)
      for (const int bit : {0, 7}) {
        auto bad = file;
        bad[i] = static_cast<char>(static_cast<unsigned char>(bad[i]) ^ (1U << bit));
        INFO(i);
        CHECK(codeOf(book.openPapers(bad)) == ErrorCode::papersUnreadable);
      }
  }
  SECTION("cut short or longer they do not open") {
    for (std::size_t size = 0; size < file.size(); ++size)
      CHECK(codeOf(book.openPapers(file.substr(0, size))) == ErrorCode::papersUnreadable);
    CHECK(codeOf(book.openPapers(file + '\0')) == ErrorCode::papersUnreadable);
  }
  SECTION("a logbook says that another's are not its own") {
    auto others = file;
    others[30] = static_cast<char>(others[30] + 1); // within the identity
    const auto opened = book.openPapers(others);
    REQUIRE(codeOf(opened) == ErrorCode::papersUnreadable);
    CHECK(opened.error().detail.find("another logbook") != std::string::npos);
  }
  SECTION("with the names locked they neither open nor are made") {
    book.lock();
    CHECK(codeOf(book.openPapers(file)) == ErrorCode::vaultLocked);
    CHECK(codeOf(stillOf(book).sealPapers(twoPapers)) == ErrorCode::vaultLocked);
  }
}
