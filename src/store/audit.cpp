#include "store/audit.h"

#include "base/text/text.h"
#include "store/book_copy.h"
#include "store/digest/sweep.h"
#include "store/keys/key_wraps.h"
#include "store/keys/recovery_key.h"
#include "store/keys/signatures.h"
#include "store/part.h"
#include "store/rows/book_queries.h"
#include "store/rows/rows.h"

#include <algorithm>
#include <map>
#include <set>

namespace gk::store {

namespace {

using base::ErrorCode;

constexpr auto compare = "compare it with the paper form and the newest backup, and go on in the "
                         "backup where they differ";
constexpr auto goBack = "keep a copy of this file as it is and go on in the newest backup";

/// Words for faults: whom a row is about and when it was written. A damaged book may answer none of
/// it, which is no trouble here.
class Teller {
 public:
  Teller(Connection& book, std::string_view database, const OwnSchema& own)
      : book_(book), database_(std::string(database) + "."), own_(own) {}

  Fault told(std::string what, std::int64_t entry, const char* doNow) {
    Fault fault{std::move(what), {}, {}, doNow};
    (void)guarded([&] { fault.since = whenOf(entry); });
    (void)guarded([&] { fault.child = numberOf(childOf(entry)); });
    return fault;
  }
  /// The kinds of its rows, and the first child that one of them is about.
  Fault toldOfAct(const std::string& what, std::int64_t first, const char* doNow) {
    auto fault = told({}, first, doNow);
    std::set<std::string> kinds;
    (void)guarded([&] {
      auto row =
          book_.prepare("SELECT kind FROM " + database_ + "entry WHERE id = ?1 AND nth = ?2");
      for (std::int64_t nth = 0;; ++nth) {
        const auto id = first + nth * keyStep;
        row.reset();
        row.bind(1, id).bind(2, nth);
        if (!row.step()) break;
        kinds.insert(plain(kindNamed(row.column<std::int64_t>(0))));
        if (fault.child.empty()) fault.child = numberOf(childOf(id));
      }
    });
    fault.what =
        "an act" +
        (kinds.empty() ? "" : " (" + base::join({kinds.begin(), kinds.end()}, ", ") + ")") + what;
    return fault;
  }
  static std::string plain(std::string table) {
    std::ranges::replace(table, '_', ' ');
    return table;
  }

 private:
  using MaybeKey = std::optional<std::int64_t>;

  std::string kindNamed(std::int64_t kind) const {
    const auto found = own_.kinds.find(kind);
    return found == own_.kinds.end() ? std::string("unknown") : found->second;
  }

  std::optional<base::LocalInstant> whenOf(std::int64_t entry) {
    auto row =
        book_.prepare("SELECT a.at, a.utc_offset FROM " + database_ + "entry AS e CROSS JOIN " +
                      database_ + "act AS a ON a.first = e.id - e.nth * 2048 WHERE e.id = ?1");
    row.bind(1, entry);
    if (!row.step()) return std::nullopt;
    return base::LocalInstant{row.column<base::Instant>(0),
                              std::chrono::minutes(row.column<int>(1))};
  }

  MaybeKey childOf(std::int64_t entry) {
    auto row = book_.prepare("SELECT kind, coalesce(subject, id), supersedes FROM " + database_ +
                             "entry WHERE id = ?1");
    row.bind(1, entry);
    if (!row.step()) return childIn(entry);
    const auto [kind, subject, supersedes] = row.columns<std::int64_t, std::int64_t, MaybeKey>();
    const auto name = kindNamed(kind);
    if (name == "child") return subject;
    if (name == "retraction" && supersedes && *supersedes != entry) return childOf(*supersedes);
    const auto child = childIn(entry);
    return child ? child : childIn(subject);
  }

  /// By whatever row hangs on it, the entry itself being there or not.
  MaybeKey childIn(std::int64_t entry) {
    for (const auto& table : own_.records) {
      const auto* column = table.has("child") ? "child" : table.has("field") ? "field" : nullptr;
      if (column == nullptr) continue;
      auto row = book_.prepare("SELECT " + std::string(column) + " FROM " + database_ + '"' +
                               table.name + "\" WHERE entry = ?1");
      row.bind(1, entry);
      if (!row.step()) continue;
      const auto about = row.column<MaybeKey>(0);
      if (table.has("child") || !about) return about;
      return childIn(*about);
    }
    return std::nullopt;
  }

  std::string numberOf(const MaybeKey& child) {
    if (!child) return {};
    auto row = book_.prepare("SELECT c.number FROM " + database_ + "entry AS e CROSS JOIN " +
                             database_ + "child AS c ON c.entry = e.id WHERE " +
                             std::string(ofThing) + " ORDER BY e.id DESC");
    row.bind(1, *child);
    return row.step() ? row.column<std::string>(0) : std::string();
  }

  Connection& book_;
  std::string database_;
  const OwnSchema& own_;
};

class FaultList {
 public:
  explicit FaultList(std::size_t most) : most_(most) {}
  template <class Make>
  void add(Make make) {
    if (faults_.size() < most_)
      faults_.push_back(make());
    else
      ++more_;
  }
  std::vector<Fault> finished() {
    if (more_ > 0)
      faults_.push_back({"there " + std::string(more_ == 1 ? "is " : "are ") +
                             base::counted(more_, "more such fault", "more such faults"),
                         {},
                         {},
                         goBack});
    return std::move(faults_);
  }

 private:
  std::size_t most_;
  std::vector<Fault> faults_;
  std::int64_t more_ = 0;
};

bool answer(Connection& book, const std::string& sql) {
  auto row = book.prepare(sql);
  return row.step() && row.column<std::int64_t>(0) != 0;
}

Fault faultOf(const Flaw& flaw, Teller& teller) {
  const auto table = Teller::plain(flaw.table);
  switch (flaw.kind) {
  case FlawKind::rowMissing:
    return teller.told("the " + table + " row of an entry is missing", flaw.entry, compare);
  case FlawKind::rowLoose:
    return teller.told("a row of " + table + " belongs to no entry of its kind", flaw.entry,
                       compare);
  case FlawKind::sequenceGap:
    return teller.told("an entry before this one is missing, or was renumbered", flaw.entry,
                       compare);
  case FlawKind::actBroken:
    return teller.told("an entry belongs to no act of its laptop, or one of its act is missing",
                       flaw.entry, compare);
  case FlawKind::actMissing:
    return teller.toldOfAct(" has no digest, so it was added or its digest removed", flaw.entry,
                            compare);
  case FlawKind::actLoose:
    return teller.told("an act was removed and its digest left", flaw.entry, compare);
  case FlawKind::erasedKept:
    return teller.told("an erased entry still has its content, or it was changed (" + table + ")",
                       flaw.entry, compare);
  case FlawKind::textUnsound:
    return teller.toldOfAct(
        " has a text with a sign that cannot be seen, which another program wrote", flaw.entry,
        compare);
  case FlawKind::teethWrong:
    return teller.told("a field has no teeth, or one of them twice", flaw.entry, compare);
  case FlawKind::timeWrong:
    return teller.toldOfAct(" has an identity of a later time than anything before it", flaw.entry,
                            compare);
  case FlawKind::lineWrong:
    return teller.told("the list of copied laptops does not match the logbook", flaw.entry,
                       compare);
  case FlawKind::handLoose:
    return {"a laptop that wrote nothing is listed, so one was added or all it wrote removed",
            {},
            {},
            compare};
  }
  base::fail("a kind of flaw");
}

constexpr auto changedAct = " is not as it was written: a row of it, or the digest of the act "
                            "before, was changed, added or removed";

/// Whether books of that version have keys of people and signatures.
bool hasKeys(const OwnSchema& own) {
  return std::ranges::any_of(own.kinds,
                             [](const auto& kind) { return kind.second == "day_signature"; });
}

/// Only what a listed erasure names is erased or a part has left out, and a salt is of a child that
/// is there.
void erasureFaults(Connection& book, const std::string& database, const OwnSchema& own,
                   FaultList& list) {
  const auto each = [&](const std::string& sql, const char* what) {
    if (answer(book, "SELECT EXISTS (" + sql + ")"))
      list.add([&] { return Fault{what, {}, {}, goBack}; });
  };
  const auto from = "SELECT 1 FROM " + database;
  each(from + ".erased_entry AS x WHERE NOT EXISTS (" + from +
           ".erasure AS e WHERE e.whom = x.child) AND NOT EXISTS (" + from +
           ".child_elsewhere AS c WHERE c.child = x.child) OR NOT EXISTS (" + from +
           ".entry AS e WHERE e.id = x.id)",
       "records were removed without a listed erasure");
  each(from + ".child_salt AS s WHERE EXISTS (" + from +
           ".erasure AS e WHERE e.whom = s.child) OR EXISTS (" + from +
           ".child_elsewhere AS c WHERE c.child = s.child) OR NOT EXISTS (" + from +
           ".entry AS e WHERE e.id = s.child AND e.kind = " + std::to_string(own.childKind) + ")",
       "something is kept of a student who was erased, left out or is missing");
  each(from + ".child_elsewhere AS c WHERE NOT EXISTS (" + from +
           ".erased_entry AS x WHERE x.id = c.child AND x.child = c.child) OR NOT EXISTS (" + from +
           ".part)",
       "the list of students who were left out does not match the logbook");
  each(from + ".part AS p WHERE (SELECT count(*) FROM " + database + ".part) > 1 OR NOT EXISTS (" +
           from + ".child_elsewhere) OR NOT EXISTS (" + from + ".entry AS e JOIN " + database +
           ".entry_kind AS k ON k.number = e.kind WHERE e.id = p.school AND k.name = 'school')",
       "what says which school this logbook is for was changed");
  if (const auto digest = partDigest(book, database)) {
    auto kept = book.prepare("SELECT digest FROM " + database + ".part");
    if (!kept.step() || hashIn(kept, 0) != digest)
      list.add([] {
        return Fault{"what says whose students are left out was changed", {}, {}, goBack};
      });
  }
  each(from + ".hand_branch AS b WHERE NOT EXISTS (" + from +
           ".hand_branch AS c WHERE c.after IS b.after AND c.origin = b.origin AND c.first <> "
           "b.first) OR NOT EXISTS (" +
           from + ".act AS a WHERE a.first = b.first)",
       "the list of copied laptops does not match the logbook");
}

/// Of what opens the names.
void openerFaults(Connection& book, FaultList& list) {
  const auto add = [&](const char* what) { list.add([&] { return Fault{what, {}, {}, goBack}; }); };
  if (!isRecoveryWhole(book))
    add("the recovery code's key was changed");
  else if (!isRecoveryKnown(book))
    add("a recovery code that is not in the history opens the names");
  if (!areWrapsWhole(book))
    add("what opens the names by a person's own passphrase, or a newer key, was changed");
  else if (!areWrapsKnown(book))
    add("a passphrase, or a key of the names, that is not in the history opens the names");
  if (isKeyPutBack(book)) add("an earlier key of the names was put back");
}

void frameFaults(Connection& book, const std::string& database, const OwnSchema& own,
                 FaultList& list) {
  if (!answer(book, "SELECT count(*) = 1 FROM " + database + ".book")) {
    list.add([] {
      return Fault{"the key of the names is missing, or there are two", {}, {}, goBack};
    });
  } else if (database == "main") {
    auto kept = book.prepare("SELECT key_digest FROM book");
    kept.step();
    const auto digest = kept.column<std::optional<std::vector<std::uint8_t>>>(0);
    if (!digest || !std::ranges::equal(*digest, keyDigest(book)))
      list.add([] {
        return Fault{
            "the key of the names, or the identity of the logbook, was changed", {}, {}, goBack};
      });
  }
  if (database == "main" && hasKeys(own)) openerFaults(book, list);
  erasureFaults(book, database, own, list);
  std::map<std::int64_t, std::string> kinds;
  auto rows = book.prepare("SELECT number, name FROM " + database + ".entry_kind");
  while (rows.step())
    kinds.emplace(rows.column<std::int64_t>(0), rows.column<std::string>(1));
  if (kinds != own.kinds)
    list.add([] { return Fault{"the list of kinds of entry was changed", {}, {}, goBack}; });
}

} // namespace

std::string sentence(const Fault& fault) {
  std::string text;
  if (!fault.child.empty()) text += "student " + fault.child;
  if (fault.since) text += (text.empty() ? "" : ", ") + fault.since->text();
  if (!text.empty()) text += ": ";
  return text + fault.what + (fault.doNow.empty() ? "" : "; " + fault.doNow);
}

std::vector<Fault> historyFaults(Connection& book, std::string_view database, const OwnSchema& own,
                                 std::size_t most) {
  FaultList list(most);
  if (!own.isBook()) return {};
  Teller teller(book, database, own);
  const auto whole = guarded([&] {
    frameFaults(book, std::string(database), own, list);
    const auto onAct = [&](const SweptAct& act) {
      // A flaw of the act says more than that its digest differs, which follows from it.
      if (!act.isFlawed && act.kept != act.digest)
        list.add([&] { return teller.toldOfAct(changedAct, act.first, compare); });
      return act.kept.value_or(act.digest);
    };
    sweep(book, database, own,
          {onAct, [&](const Flaw& flaw) { list.add([&] { return faultOf(flaw, teller); }); }});
    // Of the other book once its rows are here.
    if (database == "main" && hasKeys(own))
      for (auto& fault : signatureFaults(book))
        list.add([&] { return std::move(fault); });
  });
  if (!whole) {
    if (whole.error().code != ErrorCode::storeDamaged) throw Trouble(whole.error());
    list.add([&] { return Fault{whole.error().detail}; });
  }
  return list.finished();
}

std::vector<Fault> newestFaults(Connection& book, const OwnSchema& own, int acts) {
  constexpr int longest = 1000; // rows of an act; an import is left to the whole check
  std::vector<Fault> faults;
  if (!own.isBook()) return faults;
  auto id = book.prepare("SELECT id FROM book");
  if (!id.step()) return {{"the key of the names is missing", {}, {}, goBack}};
  const auto bookId = id.bytes16(0);
  auto newest = book.prepare("SELECT e.id, a.sequence, a.count, a.digest FROM entry AS e LEFT JOIN "
                             "act AS a ON a.first = e.id WHERE e.nth = 0 ORDER BY e.id DESC LIMIT "
                             "?1");
  newest.bind(1, acts);
  Teller teller(book, "main", own);
  while (newest.step()) {
    const auto first = newest.column<std::int64_t>(0);
    const auto laptop = book.hands().laptopOf(handIn(first));
    if (newest.isNull(1) || !laptop) {
      faults.push_back(faultOf({FlawKind::actMissing, first}, teller));
      continue;
    }
    if (newest.column<std::int64_t>(2) > longest) continue;
    // A copy of a disk goes on from an act of another hand.
    auto before = book.prepare(
        "SELECT digest FROM act WHERE first = coalesce((SELECT after FROM hand_branch WHERE first "
        "= ?3), (SELECT first FROM act WHERE (first & 2047) = ?1 AND sequence < ?2 ORDER BY "
        "sequence DESC LIMIT 1))");
    before.bindAll(handIn(first), newest.column<std::int64_t>(1), first);
    const auto previous = before.step() ? hashIn(before, 0) : crypto::Hash{};
    const auto origin = book.hands().originLaptop(handIn(first));
    const auto now =
        digestOf(book, own, {bookId, origin}, first, previous.value_or(crypto::Hash{}));
    if (!now || now != hashIn(newest, 3))
      faults.push_back(teller.toldOfAct(changedAct, first, compare));
  }
  return faults;
}

std::vector<Fault> pageFaults(Connection& book) {
  std::vector<Fault> faults;
  for (auto& line : findings(book))
    faults.push_back({std::move(line), {}, {}, goBack});
  return faults;
}

void checkPages(Connection& book, std::string_view database, const base::Path& file) {
  // Not quick_check: an index that lacks rows hides a child from every question that goes by it.
  auto check = book.prepare("PRAGMA " + std::string(database) + ".integrity_check(1)");
  const std::string line = check.step() ? check.column<std::string>(0) : "no answer";
  if (line != "ok")
    throw Trouble({ErrorCode::storeDamaged,
                   file.string() + ": " + line + "; keep this file and open the latest backup"});
}

void requireNone(const std::vector<Fault>& faults, const base::Path& file) {
  if (faults.empty()) return;
  Fault first = faults.front();
  first.doNow.clear();
  throw Trouble({ErrorCode::storeDamaged,
                 file.string() + ": " + sentence(first) +
                     (faults.size() > 1 ? " (and " + std::to_string(faults.size() - 1) + " more)"
                                        : std::string()) +
                     "; nothing more is written to it; keep this file and open the latest backup"});
}

} // namespace gk::store
