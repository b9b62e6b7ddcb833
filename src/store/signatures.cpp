#include "store/signatures.h"

#include "crypto/sign.h"
#include "store/act_digest.h"
#include "store/book_queries.h"
#include "store/key_rows.h"
#include "store/migration.h"
#include "store/roster_rows.h"
#include "store/trouble.h"

#include <algorithm>
#include <map>

namespace gk::store {

namespace {

using base::Recorded;
using roster::Capacity;
using roster::DayClosure;
using roster::DaySignature;

template <class T>
std::vector<Recorded<T>> everWritten(Connection& book, const Where& where = everything()) {
  return selectRows<T>(book, where, Which::ever);
}

base::Uuid bookOf(Connection& book) {
  auto id = book.prepare("SELECT id FROM book WHERE only_row = 1");
  return id.step() ? id.bytes16(0) : base::Uuid{};
}

/// The digest of the laptop's act whose last row has this number; none where no act ends there.
std::optional<crypto::Hash> digestUpTo(Connection& book, base::LaptopId laptop,
                                       std::int64_t sequence) {
  auto act = book.prepare(actUpToSql);
  act.bindAll(book.hands().numberOf(laptop), sequence);
  if (!act.step() || act.column<std::int64_t>(0) != sequence) return std::nullopt;
  return hashIn(act, 1);
}

base::MemberId signerAs(const DayClosure& closure, Capacity capacity) {
  return capacity == Capacity::clinical ? closure.clinical : closure.coordinator;
}

/// Whether the row was in the history that was signed.
bool wasKnown(const base::Stamp& row, const std::vector<roster::ChainHead>& heads) {
  return std::ranges::any_of(heads, [&](const auto& head) {
    return head.laptop == row.laptop && row.sequence <= head.sequence;
  });
}

class Judge {
 public:
  explicit Judge(Connection& book)
      : book_(book), id_(bookOf(book)), keys_(everWritten<roster::PersonalKey>(book)) {
    for (auto& closure : everWritten<DayClosure>(book))
      closures_.emplace(closure.id, std::move(closure));
  }

  [[nodiscard]] const std::map<roster::ClosureId, Recorded<DayClosure>>& closures() const {
    return closures_;
  }

  std::string flawOf(const Recorded<DaySignature>& row) {
    const auto& said = row.value;
    const auto found = closures_.find(said.closure);
    if (found == closures_.end()) return "that day was not closed so";
    const auto& closure = found->second;
    if (closure.value.day != said.day) return "it is of another day";
    if (signerAs(closure.value, said.capacity) != said.signer) return "another person signs there";
    if (closure.stamp.laptop != row.stamp.laptop || closure.stamp.at != row.stamp.at)
      return "it was not made when that day was closed";
    if (auto flaw = headFlaw(closure.stamp, said.heads); !flaw.empty()) return flaw;
    return keyFlaw(closure.value, row);
  }

  /// Whether the person had a key that the laptop knew of when the day was closed.
  [[nodiscard]] bool hadKey(base::MemberId who, const base::Stamp& closing) const {
    return std::ranges::any_of(keys_, [&](const auto& key) {
      return key.value.member == who && key.stamp.laptop == closing.laptop &&
             key.stamp.sequence < closing.sequence;
    });
  }
  [[nodiscard]] bool hasKeys() const { return !keys_.empty(); }

 private:
  std::string headFlaw(const base::Stamp& closing, const std::vector<roster::ChainHead>& heads) {
    const auto own = std::ranges::find(heads, closing.laptop, &roster::ChainHead::laptop);
    const auto before = own == heads.end() ? 0 : own->sequence;
    if (before + 1 != closing.sequence) return "acts before it were added or removed";
    for (const auto& head : heads) {
      const auto digest = digestUpTo(book_, head.laptop, head.sequence);
      if (!digest) return "an act that was signed is missing";
      if (!std::ranges::equal(*digest, head.digest))
        return "an act up to then was changed, added or removed";
    }
    return {};
  }

  std::string keyFlaw(const DayClosure& closure, const Recorded<DaySignature>& row) {
    const auto& said = row.value;
    if (!said.key) {
      const bool had = std::ranges::any_of(keys_, [&](const auto& key) {
        return key.value.member == said.signer && wasKnown(key.stamp, said.heads);
      });
      return had ? "it is by name only, of a person who had a key" : std::string();
    }
    const roster::PersonalKey* own = nullptr;
    for (const auto& key : keys_) {
      if (key.id != *said.key || key.value.member != said.signer) continue;
      if (!own) own = &key.value;
      if (key.value.revoked && wasKnown(key.stamp, said.heads)) return "its key had been revoked";
    }
    if (!own) return "its key is not that person's";
    if (!crypto::isSignedBy(own->publicKey, signedBytes(id_, closure, said, row.stamp.at),
                            said.signature))
      return "what is written there was not signed with that person's key";
    return {};
  }

  Connection& book_;
  base::Uuid id_;
  std::vector<Recorded<roster::PersonalKey>> keys_;
  std::map<roster::ClosureId, Recorded<DayClosure>> closures_;
};

/// Words for faults; a damaged book may have no answer.
class SignatureTeller {
 public:
  explicit SignatureTeller(Connection& book) : book_(book) {}

  Fault told(base::MemberId signer, base::DayId day, const base::Stamp& closing,
             const std::string& what) {
    return {"the signature of " + nameOf(signer) + " on " + dateOf(day) + what,
            {},
            closing.at,
            "compare the day with its signed sheet and the newest backup, and go on in the backup "
            "where they differ"};
  }

 private:
  std::string nameOf(base::MemberId who) {
    const auto rows = everWritten<roster::Member>(book_, subjectIs(who));
    return rows.empty() ? "somebody" : rows.back().value.name;
  }
  std::string dateOf(base::DayId day) {
    const auto rows = everWritten<roster::ClinicDay>(book_, subjectIs(day));
    return rows.empty() ? "a day that is not there" : rows.back().value.date.words();
  }
  Connection& book_;
};

} // namespace

ChainState chainState(Connection& book) {
  ChainState state{bookOf(book), migrations().back().number, {}};
  for (const auto& [number, laptop] : book.hands().all()) {
    auto last = book.prepare(lastActSql);
    last.bind(1, number);
    if (!last.step()) continue; // that a laptop wrote nothing is found elsewhere
    const auto digest = hashIn(last, 1).value_or(crypto::Hash{});
    state.heads.push_back({laptop, last.column<std::int64_t>(0), {digest.begin(), digest.end()}});
  }
  std::ranges::sort(state.heads, {}, &roster::ChainHead::laptop);
  return state;
}

std::vector<JudgedSignature> judgeSignatures(Connection& book, std::optional<base::DayId> day) {
  Judge judge(book);
  std::vector<JudgedSignature> judged;
  for (auto& row : everWritten<DaySignature>(book, day ? rowsOf("day", *day) : everything())) {
    auto flaw = judge.flawOf(row);
    judged.push_back({std::move(row), std::move(flaw)});
  }
  return judged;
}

std::vector<Fault> signatureFaults(Connection& book) {
  const auto signatures = everWritten<DaySignature>(book);
  Judge judge(book);
  if (signatures.empty() && !judge.hasKeys()) return {};
  SignatureTeller teller(book);
  std::vector<Fault> faults;
  std::map<roster::ClosureId, std::vector<Capacity>> signedAs;
  for (const auto& row : signatures) {
    signedAs[row.value.closure].push_back(row.value.capacity);
    if (const auto flaw = judge.flawOf(row); !flaw.empty())
      faults.push_back(teller.told(row.value.signer, row.value.day, row.stamp,
                                   " does not match what the logbook says: " + flaw));
  }
  for (const auto& [id, closure] : judge.closures()) {
    const auto& there = signedAs[id];
    for (const auto capacity : {Capacity::clinical, Capacity::completeness}) {
      const auto times = std::ranges::count(there, capacity);
      const auto signer = signerAs(closure.value, capacity);
      if (times > 1)
        faults.push_back(
            teller.told(signer, closure.value.day, closure.stamp, " is there more than once"));
      if (times == 0 && (!there.empty() || judge.hadKey(signer, closure.stamp)))
        faults.push_back(teller.told(signer, closure.value.day, closure.stamp, " is missing"));
    }
  }
  return faults;
}

} // namespace gk::store
