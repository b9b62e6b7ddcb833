#include "store/keys/signatures.h"

#include "crypto/sign.h"
#include "store/digest/act_digest.h"
#include "store/digest/lines.h"
#include "store/records/closing_rows.h"
#include "store/records/key_rows.h"
#include "store/records/roster_rows.h"
#include "store/rows/book_queries.h"
#include "store/schema/migration.h"
#include "store/sqlite/trouble.h"

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

/// The digest of the act of the hand whose last row has this number; none where no act ends there.
std::optional<crypto::Hash> digestUpTo(Connection& book, int hand, std::int64_t sequence) {
  auto act = book.prepare(actUpToSql);
  act.bindAll(hand, sequence);
  if (!act.step() || act.column<std::int64_t>(0) != sequence) return std::nullopt;
  return hashIn(act, 1);
}

base::MemberId signerAs(const DayClosure& closure, Capacity capacity) {
  return capacity == Capacity::clinical ? closure.clinical : closure.coordinator;
}

/// What the heads of a signature cover. A head names a laptop; where copies of it were both written
/// on, it is of the line that has its digest, and of what came before that line.
class SignedHistory {
 public:
  explicit SignedHistory(Connection& book) : book_(book) {
    for (const auto& branch : branchesOf(book, "main")) {
      if (!branch.after || handIn(branch.first) == handIn(*branch.after)) continue;
      auto act = book.prepare("SELECT sequence + count - 1 FROM act WHERE first = ?1");
      act.bind(1, *branch.after);
      if (act.step())
        before_.emplace(handIn(branch.first),
                        Before{handIn(*branch.after), act.column<std::int64_t>(0)});
    }
  }

  /// The hand whose act the head is; none where the book has no such act.
  std::optional<int> handOf(const roster::ChainHead& head) {
    const auto& hands = book_.hands();
    const int named = hands.numberOf(head.laptop);
    if (named == 0) return std::nullopt;
    for (const auto& [number, laptop] : hands.all()) {
      if (hands.originOf(number) != hands.originOf(named)) continue;
      const auto digest = digestUpTo(book_, number, head.sequence);
      if (digest && std::ranges::equal(*digest, head.digest)) return number;
    }
    return std::nullopt;
  }

  /// Whether the row was in the history that was signed.
  bool hasRow(const base::Stamp& row, const std::vector<roster::ChainHead>& heads) {
    const int hand = handIn(book_.hands().keyOf(row.entry.uuid()));
    return std::ranges::any_of(heads, [&](const auto& head) {
      auto now = handOf(head);
      auto sequence = head.sequence;
      while (now) {
        if (*now == hand && row.sequence <= sequence) return true;
        const auto earlier = before_.find(*now);
        if (earlier == before_.end()) return false;
        now = earlier->second.hand;
        sequence = std::min(sequence, earlier->second.sequence);
      }
      return false;
    });
  }

  /// Whether the act of this row follows right after one of the heads, or is the first of its hand
  /// while none is there.
  bool endsBefore(const base::Stamp& row, const std::vector<roster::ChainHead>& heads) {
    const auto& hands = book_.hands();
    const int origin = hands.originOf(handIn(hands.keyOf(row.entry.uuid())));
    bool isThere = false;
    for (const auto& head : heads) {
      const int named = hands.numberOf(head.laptop);
      if (named == 0 || hands.originOf(named) != origin) continue;
      if (head.sequence + 1 == row.sequence) return true;
      isThere = true;
    }
    return !isThere && row.sequence == 1;
  }

 private:
  struct Before {
    int hand;
    std::int64_t sequence;
  };
  Connection& book_;
  std::map<int, Before> before_; ///< of a line: where it parted
};

class Judge {
 public:
  explicit Judge(Connection& book)
      : book_(book), id_(bookOf(book)), history_(book),
        keys_(everWritten<roster::PersonalKey>(book)) {
    for (auto& closure : everWritten<DayClosure>(book))
      closures_.emplace(closure.id, std::move(closure));
  }

  [[nodiscard]] const std::map<roster::ClosureId, Recorded<DayClosure>>& closures() const {
    return closures_;
  }

  std::string flawOf(const Recorded<DaySignature>& row) {
    const auto& said = row.value;
    const auto found = closures_.find(said.closure);
    if (found == closures_.end()) return "that day was not closed this way";
    const auto& closure = found->second;
    if (closure.value.day != said.day) return "it is for another day";
    if (signerAs(closure.value, said.capacity) != said.signer)
      return "another person was to sign there";
    if (closure.stamp.laptop != row.stamp.laptop || closure.stamp.at != row.stamp.at)
      return "it was not made when that day was closed";
    if (auto flaw = headFlaw(closure.stamp, said.heads); !flaw.empty()) return flaw;
    return keyFlaw(closure.value, row);
  }

  /// What was erased under a name was signed with that person's key, wherever the laptop that wrote
  /// it had one of hers.
  std::string flawOf(const Recorded<roster::Erasure>& row) {
    const auto author = row.stamp.by.author;
    const auto& said = row.value;
    const auto isBefore = [&](const auto& key) {
      return key.stamp.laptop == row.stamp.laptop && key.stamp.sequence < row.stamp.sequence;
    };
    if (!said.key) {
      std::map<roster::PersonalKeyId, bool> isValid;
      for (const auto& key : keys_)
        if (author && key.value.member == *author && isBefore(key))
          isValid[key.id] = !key.value.revoked;
      const bool had = std::ranges::any_of(isValid, [](const auto& one) { return one.second; });
      return had ? "it is by name only, but the person had a key" : std::string();
    }
    const roster::PersonalKey* own = nullptr;
    for (const auto& key : keys_) {
      if (key.id != *said.key) continue;
      if (isFirstOf(key) && author && key.value.member == *author) own = &key.value;
      if (key.value.revoked && isBefore(key)) return "its key had been revoked";
    }
    if (!own) return "its key is not that person's";
    if (!crypto::isSignedBy(own->publicKey, signedBytes(id_, said, author, row.stamp.at, entered()),
                            said.signature))
      return "its content was not signed with that person's key";
    return {};
  }

  /// No flaw: a laptop that was apart signs in good faith. But who reads the sheet is told.
  std::string revokedElsewhere(const Recorded<DaySignature>& row) {
    for (const auto& key : keys_)
      if (row.value.key == key.id && key.value.revoked &&
          !history_.hasRow(key.stamp, row.value.heads) && key.stamp.at.at < row.stamp.at.at)
        return "its key had been revoked on " + key.stamp.at.date().words() +
               " on another laptop, not merged here yet";
    return {};
  }
  [[nodiscard]] const std::vector<Recorded<roster::PersonalKey>>& keys() const { return keys_; }

  /// What the program never writes, of a key; empty where there is nothing.
  std::string flawOf(const Recorded<roster::PersonalKey>& row) {
    if (isFirstOf(row)) return isSecond(row) ? " was added while another one was valid" : "";
    for (const auto& other : keys_) {
      if (other.id != row.id) continue;
      if (isFirstOf(other) &&
          (other.value.publicKey != row.value.publicKey || other.value.member != row.value.member))
        return " was replaced by another";
      if (row.stamp.supersedes == other.stamp.entry && other.value.revoked && !row.value.revoked)
        return " was revoked and is valid again";
    }
    return {};
  }

 private:
  [[nodiscard]] std::function<base::Uuid(const base::Uuid&)> entered() const {
    return [&hands = book_.hands()](const base::Uuid& id) {
      return hands.enteredAs(hands.keyOf(id)).value_or(id);
    };
  }

  static bool isFirstOf(const Recorded<roster::PersonalKey>& row) {
    return row.stamp.entry.uuid() == row.id.uuid();
  }

  /// A laptop makes none while it knows of one that stands; one that was apart may.
  bool isSecond(const Recorded<roster::PersonalKey>& row) {
    return std::ranges::any_of(keys_, [&](const auto& earlier) {
      if (!isFirstOf(earlier) || earlier.id == row.id || earlier.value.member != row.value.member ||
          earlier.stamp.laptop != row.stamp.laptop || earlier.stamp.sequence > row.stamp.sequence)
        return false;
      return std::ranges::none_of(keys_, [&](const auto& later) {
        return later.id == earlier.id && later.value.revoked &&
               (later.stamp.laptop != row.stamp.laptop ||
                later.stamp.sequence < row.stamp.sequence);
      });
    });
  }

  std::string headFlaw(const base::Stamp& closing, const std::vector<roster::ChainHead>& heads) {
    if (!history_.endsBefore(closing, heads)) return "entries before it were added or removed";
    for (const auto& head : heads) {
      if (history_.handOf(head)) continue;
      const int named = book_.hands().numberOf(head.laptop);
      return named != 0 && digestUpTo(book_, named, head.sequence)
                 ? "an entry up to then was changed, added or removed"
                 : "an entry that was signed is missing";
    }
    return {};
  }

  std::string keyFlaw(const DayClosure& closure, const Recorded<DaySignature>& row) {
    const auto& said = row.value;
    if (!said.key) {
      const bool had = std::ranges::any_of(keys_, [&](const auto& key) {
        return key.value.member == said.signer && history_.hasRow(key.stamp, said.heads);
      });
      return had ? "it is by name only, but the person had a key" : std::string();
    }
    const roster::PersonalKey* own = nullptr;
    for (const auto& key : keys_) {
      if (key.id != *said.key) continue;
      if (isFirstOf(key) && key.value.member == said.signer) own = &key.value;
      if (key.value.revoked && history_.hasRow(key.stamp, said.heads))
        return "its key had been revoked";
    }
    if (!own) return "its key is not that person's";
    if (!crypto::isSignedBy(own->publicKey,
                            signedBytes(id_, closure, said, row.stamp.at, entered()),
                            said.signature))
      return "its content was not signed with that person's key";
    return {};
  }

  Connection& book_;
  base::Uuid id_;
  SignedHistory history_;
  std::vector<Recorded<roster::PersonalKey>> keys_;
  std::map<roster::ClosureId, Recorded<DayClosure>> closures_;
};

/// Both signers of a day sign one history; in which order it lists the laptops does not matter.
bool sayTheSame(const DaySignature& one, const DaySignature& other) {
  return one.counts == other.counts && one.schema == other.schema &&
         std::ranges::is_permutation(one.heads, other.heads);
}

/// Words for faults; a damaged book may have no answer.
class SignatureTeller {
 public:
  explicit SignatureTeller(Connection& book) : book_(book) {}

  Fault told(base::MemberId signer, base::DayId day, const base::Stamp& closing,
             const std::string& what) {
    return {"the signature of " + nameOf(signer) + " on " + dateOf(day) + what,
            {},
            closing.at,
            "compare the day with its signed sheet and the newest backup, and use the backup "
            "if they differ"};
  }
  Fault told(const Recorded<roster::Erasure>& row, const std::string& what) {
    return {"the erasure of student " + row.value.number + " by " +
                (row.stamp.by.author ? nameOf(*row.stamp.by.author) : "someone") +
                " does not match its signature: " + what,
            {},
            row.stamp.at,
            "ask that person; use the newest backup without it if it was not decided"};
  }
  Fault toldOfKey(const Recorded<roster::PersonalKey>& key, const std::string& what) {
    return {"the signing key of " + nameOf(key.value.member) + what,
            {},
            key.stamp.at,
            "ask that person; use the newest backup without it, and revoke the key there"};
  }

 private:
  std::string nameOf(base::MemberId who) {
    const auto rows = everWritten<roster::Member>(book_, subjectIs(who));
    return rows.empty() ? "someone" : rows.back().value.name;
  }
  std::string dateOf(base::DayId day) {
    const auto rows = everWritten<roster::ClinicDay>(book_, subjectIs(day));
    return rows.empty() ? "a missing day" : rows.back().value.date.words();
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
    auto revoked = judge.revokedElsewhere(row);
    judged.push_back({std::move(row), std::move(flaw), std::move(revoked)});
  }
  return judged;
}

std::vector<Fault> signatureFaults(Connection& book) {
  Judge judge(book);
  SignatureTeller teller(book);
  std::vector<Fault> faults;
  for (const auto& key : judge.keys())
    if (const auto flaw = judge.flawOf(key); !flaw.empty())
      faults.push_back(teller.toldOfKey(key, flaw));
  for (const auto& row : everWritten<roster::Erasure>(book))
    if (const auto flaw = judge.flawOf(row); !flaw.empty())
      faults.push_back(teller.told(row, flaw));
  std::map<roster::ClosureId, std::vector<Recorded<DaySignature>>> signedAs;
  for (auto& row : everWritten<DaySignature>(book)) {
    if (const auto flaw = judge.flawOf(row); !flaw.empty())
      faults.push_back(teller.told(row.value.signer, row.value.day, row.stamp,
                                   " does not match what the logbook says: " + flaw));
    signedAs[row.value.closure].push_back(std::move(row));
  }
  for (const auto& [id, closure] : judge.closures()) {
    const auto& there = signedAs[id];
    const auto tell = [&](base::MemberId signer, const std::string& what) {
      faults.push_back(teller.told(signer, closure.value.day, closure.stamp, what));
    };
    for (const auto capacity : {Capacity::clinical, Capacity::completeness}) {
      const auto times =
          std::ranges::count(there, capacity, [](const auto& row) { return row.value.capacity; });
      if (times > 1) tell(signerAs(closure.value, capacity), " is in the logbook more than once");
      if (times == 0) tell(signerAs(closure.value, capacity), " is missing");
    }
    if (there.size() == 2 && !sayTheSame(there[0].value, there[1].value))
      tell(there[1].value.signer, " covers a different history or different counts than the other "
                                  "signature of that day");
  }
  return faults;
}

} // namespace gk::store
