#include "session/merging/envelope.h"

#include "session/second_laptop.h"
#include "support/clinic.h"

#include <fstream>

using namespace gk;
using base::ErrorCode;
using session::EnvelopeNote;
using test::Clinic;
using test::codeOf;
using test::must;
using test::Scratch;

namespace {

const auto cheap = crypto::KdfCost::cheapest();
constexpr auto words = "seven gray herons";

crypto::Secret dayWords() {
  return crypto::Secret::copyOf(std::string_view(words));
}

crypto::Bytes smallEnvelope(const std::vector<std::uint8_t>& book) {
  base::SeededRandom random{7};
  const EnvelopeNote note{base::makeUuid7({base::Milliseconds{1}}, random), "book",
                          must(base::Date::parse("2026-11-17")), "Cobble Lantern"};
  return must(session::sealEnvelope(note, book, dayWords(), cheap, random));
}

std::string bytesIn(const base::Path& file) {
  return must(base::readFile(file, std::size_t{1} << 28));
}

} // namespace

TEST_CASE("A small envelope with any one of its bytes changed, or cut off anywhere, is refused",
          "[case-295]") {
  const std::vector<std::uint8_t> book(150, 0x5a);
  const auto sealed = smallEnvelope(book);
  const auto opened = must(session::openEnvelope(sealed, dayWords(), cheap));
  CHECK(opened.book == book);
  CHECK(opened.note.school == "Cobble Lantern");
  int refused = 0;
  for (std::size_t i = 0; i < sealed.size(); ++i)
    for (const int bit : {0, 7}) {
      auto changed = sealed;
      changed[i] = static_cast<std::uint8_t>(changed[i] ^ (1 << bit));
      const auto tried = session::openEnvelope(changed, dayWords(), cheap);
      if (!tried) ++refused;
      CHECK_FALSE(tried.has_value());
    }
  CHECK(refused == 2 * static_cast<int>(sealed.size()));
  for (std::size_t size = 0; size < sealed.size(); ++size)
    CHECK_FALSE(
        session::openEnvelope(std::span(sealed).first(size), dayWords(), cheap).has_value());
  auto longer = sealed;
  longer.push_back(0);
  CHECK_FALSE(session::openEnvelope(longer, dayWords(), cheap).has_value());
  CHECK(codeOf(session::openEnvelope(sealed, crypto::Secret::copyOf(std::string_view("another")),
                                     cheap)) == ErrorCode::envelopeUnreadable);
}

TEST_CASE("Nothing of a logbook can be read in its envelope", "[case-295]") {
  Clinic clinic;
  clinic.child("Mina", "Tolliver-Reed");
  const auto file = *clinic.folder / "day.gkday";
  must(clinic.session.sealDay(clinic.by, file, {}, words));
  const auto bytes = bytesIn(file);
  for (const auto* word : {"SQLite", "Cobble", "CREATE", "1001-"})
    CHECK(bytes.find(word) == std::string::npos);
}

TEST_CASE("An envelope that is canceled is not there and is not listed", "[case-501]") {
  Clinic clinic;
  const auto file = *clinic.folder / "day.gkday";
  for (const int mostAsked : {0, 1}) {
    int asked = 0;
    const base::Progress progress([&] { return asked++ >= mostAsked; }, {});
    const auto sealed = clinic.session.sealDay(clinic.by, file, {}, words, progress);
    REQUIRE_FALSE(sealed);
    CHECK(sealed.error().code == ErrorCode::workCanceled);
    CHECK_FALSE(std::filesystem::exists(file));
    CHECK(must(clinic.session.dayEnvelopes()).empty());
  }
  must(clinic.session.sealDay(clinic.by, file, {}, words));
}

TEST_CASE("An envelope goes to a second laptop and comes back with its day, once", "[case-294]") {
  Clinic clinic;
  const auto mina = clinic.child("Mina");
  const auto there = *clinic.folder / "to-two.gkday";
  must(clinic.session.sealDay(clinic.by, there, {}, words));
  Scratch other;
  const auto book = other / "two.gkbook";
  must(session::Session::unpackEnvelope(there, words, book, session::BookKind::throwaway));
  CHECK(codeOf(session::Session::unpackEnvelope(
            there, words, book, session::BookKind::throwaway)) == ErrorCode::fileUnwritable);
  base::SeededRandom random{77};
  const auto back = other / "back.gkday";
  {
    const store::HandMemory laptop(other.path(), {"another computer", "this start"}, random);
    auto two = must(session::Session::open(book, laptop, {clinic.clock, random},
                                           store::Access::readWrite, session::BookKind::throwaway));
    must(two.unlock(Clinic::passphrase));
    must(two.enterFlag(clinic.by, {.child = mina,
                                   .kind = roster::FlagKind::asthma,
                                   .action = roster::FlagAction::ask,
                                   .detail = {},
                                   .decided = {}}));
    must(two.sealDay(clinic.by, back, {}, words));
    must(two.finish());
  }
  CHECK(must(clinic.session.flags(mina)).empty());
  const auto merged = must(clinic.session.absorbEnvelope(clinic.by, back, words));
  CHECK(merged.newEntries > 0);
  CHECK(must(clinic.session.flags(mina)).size() == 1);
  // Nothing of it is left beside the logbook.
  for (const auto& file : std::filesystem::directory_iterator(clinic.session.path().parent_path()))
    CHECK(file.path().filename().string().find(".groovekeeper-") == std::string::npos);

  const auto before = clinic.session.edition();
  CHECK(codeOf(clinic.session.absorbEnvelope(clinic.by, back, words)) ==
        ErrorCode::envelopeTaken); // replayed
  CHECK(codeOf(clinic.session.absorbEnvelope(clinic.by, there, words)) ==
        ErrorCode::envelopeTaken); // its own
  CHECK(clinic.session.edition() == before);
  CHECK(must(clinic.session.findings()).empty());
}

TEST_CASE("A truncated, altered or foreign envelope, or a wrong passphrase, changes nothing",
          "[case-295]") {
  Clinic clinic;
  Clinic foreign;
  const auto file = *foreign.folder / "day.gkday";
  must(foreign.session.sealDay(foreign.by, file, {}, words));
  const auto whole = bytesIn(file);
  const auto before = clinic.session.edition();
  const auto tries = [&](const std::string& bytes, const char* passphrase) {
    const auto path = *clinic.folder / "tried.gkday";
    must(base::replaceFile(path, bytes));
    return codeOf(clinic.session.absorbEnvelope(clinic.by, path, passphrase));
  };
  // Of another logbook, sealed as it should be.
  base::SeededRandom random{3};
  const auto logbook = must(base::readFile(foreign.session.path(), std::size_t{1} << 28));
  const auto other = must(session::sealEnvelope(
      {base::makeUuid7({base::Milliseconds{2}}, random),
       base::makeUuid7({}, random).text(),
       must(base::Date::parse("2026-11-17")),
       {}},
      std::vector<std::uint8_t>(logbook.begin(), logbook.end()), dayWords(), cheap, random));
  CHECK(tries(std::string(other.begin(), other.end()), words) == ErrorCode::envelopeUnreadable);
  CHECK(tries(whole, "another") == ErrorCode::envelopeUnreadable);
  CHECK(tries(whole.substr(0, whole.size() / 2), words) == ErrorCode::envelopeUnreadable);
  for (const auto at : {std::size_t{40}, std::size_t{70}, whole.size() / 3, whole.size() - 1}) {
    auto altered = whole;
    altered[at] = static_cast<char>(altered[at] ^ 1);
    CHECK(tries(altered, words) == ErrorCode::envelopeUnreadable);
  }
  CHECK(tries("no envelope at all", words) == ErrorCode::envelopeUnreadable);
  CHECK(tries("", words) == ErrorCode::envelopeUnreadable);
  CHECK(clinic.session.edition() == before);
  CHECK(codeOf(clinic.session.absorbEnvelope({}, file, words)) == ErrorCode::ruleCredential);
  CHECK(codeOf(clinic.session.sealDay(clinic.by, *clinic.folder / "x.gkday", {}, " ")) ==
        ErrorCode::callMalformed);
  CHECK(clinic.session.edition() == before);
}

TEST_CASE("An envelope takes no other file's place, least of all the logbook's own", "[case-380]") {
  Clinic clinic;
  auto& book = clinic.session;
  const auto before = bytesIn(book.path());
  CHECK(codeOf(book.sealDay(clinic.by, book.path(), {}, words)) == ErrorCode::fileUnwritable);
  const auto list = *clinic.folder / "list.csv";
  must(base::replaceFile(list, "first,last\n"));
  CHECK(codeOf(book.sealDay(clinic.by, list, {}, words)) == ErrorCode::fileUnwritable);
  CHECK(bytesIn(book.path()) == before);
  CHECK(bytesIn(list) == "first,last\n");
  CHECK(must(book.dayEnvelopes()).empty());
  // What lies beside would be played back into what is unpacked.
  const auto sealed = *clinic.folder / "day.gkday";
  must(book.sealDay(clinic.by, sealed, {}, words));
  const auto target = *clinic.folder / "two.gkbook";
  must(base::replaceFile(target.string() + "-journal", "left over"));
  CHECK(codeOf(session::Session::unpackEnvelope(
            sealed, words, target, session::BookKind::throwaway)) == ErrorCode::fileUnwritable);
  CHECK_FALSE(std::filesystem::exists(target));
}

TEST_CASE("An envelope whose content is no whole logbook, or another than it says, is not unpacked",
          "[case-381]") {
  Clinic clinic;
  base::SeededRandom random{3};
  const auto file = *clinic.folder / "odd.gkday";
  const auto target = *clinic.folder / "two.gkbook";
  auto whole = bytesIn(clinic.session.path());
  const auto tries = [&](const std::string& bytes, const std::string& says) {
    const auto sealed = must(session::sealEnvelope(
        {base::makeUuid7({base::Milliseconds{2}}, random),
         says,
         must(base::Date::parse("2026-11-17")),
         {}},
        std::vector<std::uint8_t>(bytes.begin(), bytes.end()), dayWords(), cheap, random));
    must(base::replaceFile(file, std::string(sealed.begin(), sealed.end())));
    const auto done =
        session::Session::unpackEnvelope(file, words, target, session::BookKind::throwaway);
    REQUIRE_FALSE(done.has_value());
    CHECK(done.error().detail.find(".groovekeeper-") == std::string::npos);
    CHECK_FALSE(std::filesystem::exists(target));
    return done.error().code;
  };
  CHECK(tries("no logbook", "x") == ErrorCode::storeNotALogbook);
  CHECK(tries(whole.substr(0, whole.size() / 2), "x") == ErrorCode::storeDamaged);
  CHECK(tries(whole, base::makeUuid7({}, random).text()) == ErrorCode::storeDamaged);
}
