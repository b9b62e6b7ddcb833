#include "crash/fault_vfs.h"
#include "crash/history.h"
#include "session/second_laptop.h"
#include "store/erasing.h"
#include "support/long_checks.h"

#include <iostream>
#include <set>

using namespace gk;
using test::DiskCall;
using test::Fault;
using test::lookAgain;
using test::must;

namespace {

constexpr auto everyFault =
    std::to_array({Fault::ioError, Fault::noSpace, Fault::shortWrite, Fault::afterIoError});

/// A logbook, and copies of it to work on.
struct Copies {
  test::Clinic clinic;
  base::Path whole = *clinic.folder / "whole.gkbook";
  base::Path path = *clinic.folder / "tried.gkbook";

  void keep() { must(clinic.session.backUp(whole)); }
  void renew() const {
    std::filesystem::remove(path.string() + "-journal");
    std::filesystem::copy_file(whole, path, std::filesystem::copy_options::overwrite_existing);
  }
  [[nodiscard]] base::Result<session::Session> open() {
    return session::Session::open(path, clinic.laptop, {clinic.clock, clinic.random},
                                  store::Access::readWrite, session::BookKind::throwaway);
  }
  /// Calls of SQLite's that `work` makes where the disk is sound.
  template <class Work>
  std::uint64_t callsOf(Work work) {
    renew();
    test::FaultDisk disk;
    auto session = must(open());
    disk.begin(path, {});
    REQUIRE(work(session));
    return disk.calls();
  }
};

struct Refused {
  std::uint64_t points = 0;
  std::uint64_t unsure = 0;
};

/// One of `every` of the `calls` fails in each way while `work` is done; `look` is told what came
/// of it, and whether the same logbook takes one more act then.
template <class Work, class Look>
Refused failAtEach(Copies& copies, std::uint64_t calls, std::uint64_t every, Work work, Look look) {
  Refused told;
  for (const auto fault : everyFault)
    for (auto at = 1 + test::seedOr(321) % every; at <= calls; at += every) {
      ++told.points;
      CAPTURE(static_cast<int>(fault), at);
      copies.renew();
      test::FaultDisk disk;
      const auto done = [&] {
        auto session = must(copies.open()); // closed before the book is looked at
        disk.begin(copies.path, [&](std::uint64_t number, DiskCall) {
          return number == at ? fault : Fault::none;
        });
        return work(session);
      }();
      const bool isUnsure = !done && done.error().code == base::ErrorCode::storeUnsure;
      if (isUnsure) ++told.unsure;
      disk.restart(at);
      const auto found = lookAgain(copies.path);
      REQUIRE_FALSE(found.isRefused);
      look(done, isUnsure, found);
    }
  return told;
}

} // namespace

TEST_CASE("Acts that are kept together are all there or none is, wherever the disk fails",
          "[case-321]") {
  Copies copies;
  copies.keep();
  const auto before = lookAgain(copies.whole).ends.size();
  constexpr std::size_t acts = 3;
  const auto work = [&](session::Session& session) {
    return session.together([&]() -> base::Result<base::Done> {
      for (const auto* name : {"Odile Marsh", "Piers Alder", "Runa Holt"}) {
        const roster::Member member{
            name, std::string(1, name[0]) + "X", roster::Role::dentalAssistant, {}, {}, {}};
        if (const auto made = session.enterMember(copies.clinic.by, member); !made)
          return made.error();
      }
      return base::Done{};
    });
  };
  const auto calls = copies.callsOf(work);
  REQUIRE(calls > 4);
  std::uint64_t kept = 0;
  const auto told = failAtEach(copies, calls, 1, work,
                               [&](const auto& done, bool isUnsure, const test::Found& found) {
                                 const auto there = found.ends.size() - before;
                                 CHECK((there == 0 || there == acts));
                                 if (done) CHECK(there == acts);
                                 if (!done && !isUnsure) CHECK(there == 0);
                                 if (there == acts) ++kept;
                               });
  CHECK(kept > 0);
  std::cout << acts << " acts together, a disk's error at " << told.points << " points: " << kept
            << " times all, otherwise none; " << told.unsure << " said to be unsure\n";
}

TEST_CASE("A merge that takes an erasure in and cannot rewrite the file says that traces are left",
          "[case-320]") {
  Copies copies;
  auto& clinic = copies.clinic;
  const auto mina = clinic.child("Mina");
  clinic.standardVisit(mina);
  copies.keep();
  test::Second second(clinic, "second.gkbook", 2);
  clinic.clock.advance(std::chrono::minutes(5));
  const auto plan = must(second.session.erasurePlan(mina));
  must(second.session.eraseStudent(clinic.by, mina,
                                   {"the mother, by letter", "records law, section 4", "asked for"},
                                   plan.total));
  const auto other = second.handOver();
  const auto work = [&](session::Session& session) {
    return session.absorb(other, {.erasures = session::ErasureYes{clinic.by, plan.total}});
  };
  const auto calls = copies.callsOf(work);
  const auto isKnown = [&] {
    auto session = must(copies.open());
    const bool known = session.child(mina).has_value();
    must(session.finish());
    return known;
  };
  const auto saysTraces = [&] {
    auto book = must(store::openBook(copies.path, store::Access::readOnly,
                                     store::Durability::everyAct, {base::Milliseconds(1)}));
    return store::hasTraces(book);
  };
  std::uint64_t traces = 0;
  std::uint64_t whole = 0;
  std::uint64_t finished = 0;
  const auto told = failAtEach(
      copies, calls, test::oneOf(40), work,
      [&](const auto& done, bool isUnsure, const test::Found&) {
        if (isUnsure) return;
        const bool isUnfinished = saysTraces();
        if (done && done->isForgotten) CHECK_FALSE(isUnfinished);
        CHECK(isKnown() == !done.has_value()); // the student is gone, or nothing was merged
        CHECK_FALSE(saysTraces());             // it was opened for that, and so rewritten
        finished += isUnfinished ? 1 : 0;
        if (!done) return;
        CHECK(done->erased > 0);
        done->isForgotten ? ++whole : ++traces;
      });
  CHECK(traces > 0);
  CHECK(finished > 0);
  std::cout << "a merge with an erasure, a disk's error at " << told.points << " points: " << whole
            << " times whole, " << traces << " times with traces said, " << told.unsure
            << " said to be unsure\n";
}

TEST_CASE("A merge writes to its own logbook alone, and its journal names no other file",
          "[case-260]") {
  Copies copies;
  auto& clinic = copies.clinic;
  const auto mina = clinic.child("Mina");
  copies.keep();
  test::Second second(clinic, "second.gkbook", 2);
  must(second.session.endVisit(clinic.by, {mina, clinic.day, chairside::DayEnd::absent, {}, {}}));
  const auto other = second.handOver();
  copies.renew();
  std::set<std::string> seen;
  test::FaultDisk disk;
  auto session = must(copies.open());
  disk.begin(copies.path.parent_path(), [&](std::uint64_t, DiskCall) {
    for (const auto& folder : {copies.path.parent_path(), other.parent_path()})
      for (const auto& entry : std::filesystem::directory_iterator(folder))
        seen.insert(entry.path().filename().string());
    return Fault::none;
  });
  CHECK(must(session.absorb(other)).newEntries > 0);
  CHECK(seen.contains(copies.path.filename().string() + "-journal"));
  CHECK_FALSE(seen.contains(other.filename().string() + "-journal"));
  for (const auto& name : seen) {
    INFO(name);
    CHECK(name.find("-mj") == std::string::npos); // the journal of two files (SQLite, atomiccommit)
  }
}
