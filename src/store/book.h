#pragma once

#include "store/act.h"
#include "store/audit.h"
#include "store/background_check.h"
#include "store/book_file.h"
#include "store/digest/hand_memory.h"
#include "store/digest/position.h"
#include "store/hand_reach.h"
#include "store/keys/recovery_key.h"
#include "store/keys/signatures.h"
#include "store/values/book_lines.h"
#include "store/values/first_act.h"
#include "store/values/identity_row.h"
#include "store/values/key_row.h"
#include "store/values/merged.h"
#include "store/values/where.h"

#include <vector>

namespace gk::store {

/// A logbook file and this laptop's hand in it. Records are append-only; every act is one
/// transaction. T is any record type of roster, kit, chairside, followup, or SealedIdentity.
class Book {
 public:
  /// With its key and its first act, or not at all. Fails as createBook.
  static base::Result<Book> create(const base::Path& path, const HandMemory& laptop,
                                   Durability durability, base::Instant now, const KeyRow& key,
                                   base::Random& random, const FirstAct& first = {});
  /// Fails as openBook, and with `storeDamaged` when an act is not as it was written. With
  /// Checkup::meanwhile only the newest acts are looked at before the book can be read; what writes
  /// waits for the rest, and fails with `storeDamaged` when the file is not whole. With
  /// Checkup::skip nothing of it is looked at.
  static base::Result<Book> open(const base::Path& path, const HandMemory& laptop, Access access,
                                 Durability durability, base::Instant now,
                                 Checkup checkup = Checkup::whole,
                                 const base::Progress& progress = {});
  /// False while the file is still looked through; fails with `storeDamaged` as `open` says.
  [[nodiscard]] base::Result<bool> isChecked() const;

  [[nodiscard]] base::Result<KeyRow> key();
  /// What else opens the names, or a newer key of them.
  [[nodiscard]] base::Result<std::vector<KeyWrap>> wraps();
  /// Changes what opens the names and nothing else, in one transaction; no act, since it leaves no
  /// trace of what it ends.
  base::Result<base::Done> keepOpeners(const std::function<void(Openers)>& work);
  [[nodiscard]] base::Result<std::optional<KeyRow>> recovery();

  /// The rows that nothing supersedes, in the order they were entered; of what two laptops said of
  /// one thing while apart, the word that counts meanwhile (store/values/rival_rule.h).
  template <class T>
  [[nodiscard]] base::Result<std::vector<base::Recorded<T>>> current(const Where& where);
  /// Every row ever, superseded ones too.
  template <class T>
  [[nodiscard]] base::Result<std::vector<base::Recorded<T>>> history(const Where& where);

  /// Children of this school with any form that has not run out before `on`, and so all whom the
  /// day may expect.
  [[nodiscard]] base::Result<std::vector<roster::ChildId>> childrenToExpect(roster::SchoolId school,
                                                                            base::Date on);
  [[nodiscard]] base::Result<ChildList> childrenOf(const ChildrenOfTerm& term);
  [[nodiscard]] base::Result<ChildPast> childPast(roster::ChildId child, base::DayId today,
                                                  roster::TermId term);
  /// Children whose row or sealed identity came, was corrected or was taken back after this entry.
  [[nodiscard]] base::Result<std::vector<roster::ChildId>> childrenTouched(base::EntryId after);
  [[nodiscard]] Edition edition() const { return {base::EntryId(position_.last), merges_}; }

  /// False once the file was moved, deleted or replaced. What is open is read on and can be backed
  /// up; nothing more is written to it.
  [[nodiscard]] bool isInPlace() const;

  /// Every thing that two laptops corrected while apart.
  [[nodiscard]] base::Result<std::vector<Rivals>> rivals();

  /// Runs `work` in one transaction, durable on return. On failure nothing of it is kept, but for
  /// `storeUnsure`: then the disk failed at the very end, and the book must be opened again to see.
  /// `storeMoved` when the file is no longer where it was opened.
  base::Result<base::Done> act(base::By by, base::LocalInstant at,
                               const std::function<void(Act&)>& work, std::string_view verb = {});
  /// The acts within `work` are kept together, in one transaction that is durable on return, or
  /// none of them is: where `work` fails, and where any act in it did. Fails as that, or as `act`.
  base::Result<base::Done> together(const std::function<base::Result<base::Done>()>& work);

  /// This laptop's newest rows before `sequence`, newest first, at most `limit` of them.
  [[nodiscard]] base::Result<std::vector<HistoryLine>> newestBefore(std::int64_t sequence,
                                                                    int limit);
  /// What other laptops wrote after this row, oldest first.
  [[nodiscard]] base::Result<std::vector<HistoryLine>> othersSince(base::EntryId entry);
  /// Every row of one thing and what took one of them back, oldest first.
  [[nodiscard]] base::Result<std::vector<HistoryLine>> rowsOfSubject(const base::Uuid& subject);
  /// As rowsOfSubject, of the thing that this row is about.
  [[nodiscard]] base::Result<std::vector<HistoryLine>> rowsOfEntry(base::EntryId entry);
  /// Whom the row is about; none for what is about no child.
  [[nodiscard]] base::Result<std::optional<roster::ChildId>> childOf(base::EntryId entry);
  /// The school day that the row is of, or belongs to; none for what is of no day.
  [[nodiscard]] base::Result<std::optional<base::DayId>> dayOf(base::EntryId entry);
  /// The current rows about a child, of whatever kind, its own among them.
  [[nodiscard]] base::Result<std::vector<base::EntryId>> entriesAbout(roster::ChildId child);
  /// Every row of the act that wrote this one, in the order they were entered; a retraction's
  /// stamp says what it took back.
  [[nodiscard]] base::Result<std::vector<HistoryLine>> actOf(base::EntryId entry);

  /// Takes in all that `other` has and this book has not: a union, so the order of merging and
  /// merging twice do not matter; what says who merged is an entry beside it (Agreed::noted). Fails
  /// with `storeNotALogbook` when the other book is of another program, and as openBook; with
  /// `storeDamaged` too when any act of the other is not as it was written; with `storeForked` when
  /// one laptop went on in copies, and with `storeErases` when it lists students as erased whose
  /// records are here, unless that was agreed to; with `storePart` when one of the two is a logbook
  /// for one school's day, and a student's entries would be here with the content of some alone.
  /// Then nothing changed.
  base::Result<Merged> absorb(const base::Path& other, base::Instant now,
                              const base::Progress& progress = {}, Agreed agreed = {});
  /// Every line of a laptop that went on in copies, oldest first.
  [[nodiscard]] base::Result<std::vector<CopiedLine>> copiedLines();
  /// The identity under which a row was entered: what seals a name or a PIN is bound to that.
  [[nodiscard]] base::Uuid enteredAs(const base::Uuid& identity);

  /// How far the history goes, for a signature to be over.
  [[nodiscard]] base::Result<ChainState> chains();
  /// Held against what the book says now.
  [[nodiscard]] base::Result<std::vector<JudgedSignature>> signatures(base::DayId day);

  base::Result<base::Done> backUp(const base::Path& target, const base::Progress& progress = {});
  /// Whether pages of the file may keep bytes of what an erasure took out: opened for writing it is
  /// rewritten first, unless the disk has no room for that.
  [[nodiscard]] base::Result<bool> keepsTraces();
  /// All that is wrong with the file and its history; empty when it is whole.
  [[nodiscard]] base::Result<std::vector<Fault>> faults(const base::Progress& progress = {});
  /// What each laptop wrote, by its newest row.
  [[nodiscard]] base::Result<std::vector<HandReach>> hands();
  /// The acts of one laptop after a number of its rows, oldest first.
  [[nodiscard]] base::Result<std::vector<base::LocalInstant>> actsAfter(base::LaptopId laptop,
                                                                        std::int64_t sequence);
  [[nodiscard]] base::Uuid identity() const { return hand_.book; }
  /// What is asked from now on ends with `workCanceled` once that is stopped.
  void watch(const base::Progress& progress) { connection_.watch(progress); }
  /// Ends Durability::bulk.
  base::Result<base::Done> finish();

  [[nodiscard]] const base::Path& path() const { return connection_.path(); }
  [[nodiscard]] base::LaptopId laptop() const { return hand_.laptop; }
  [[nodiscard]] const HandNotice& handNotice() const { return notice_; }
  /// Rows this laptop has written.
  [[nodiscard]] std::int64_t lastSequence() const { return position_.sequence; }
  /// No row bears a later moment; a clock behind it is wrong.
  [[nodiscard]] base::Instant newestMoment() const;

 private:
  friend struct Erasing;
  friend struct Parting;
  void takeHand(const HandMemory& laptop, base::Instant now);

  Book(Connection connection, const Hand& hand, const Position& position)
      : connection_(std::move(connection)), hand_(hand), position_(position) {}

  friend class Image;
  static base::Result<Book> over(Connection connection, base::LaptopId laptop);

  template <class T>
  void keepWhatCounts(std::vector<base::Recorded<T>>& rows);
  /// Throws Trouble. Read once, since only a merge brings them and only an act ends them.
  const std::vector<Rivals>& knownRivals();

  [[nodiscard]] base::Result<base::Done> awaitCheck() const;
  /// `storeMoved` unless the file is still where it was, and as awaitCheck.
  [[nodiscard]] base::Result<base::Done> mayWrite() const;
  /// What became of writing; `storeMoved` where the file went meanwhile.
  [[nodiscard]] base::Result<base::Done> inPlace(base::Result<base::Done> done) const;

  std::unique_ptr<BackgroundCheck> check_; // before the connection, so that it outlives it
  Connection connection_;
  Hand hand_;
  Position position_;
  int merges_ = 0;
  std::optional<std::vector<Rivals>> rivals_{};
  /// While acts are kept together: what the first of them that failed failed with.
  struct Together {
    std::optional<base::Error> failed{};
  };
  std::optional<Together> together_{};
  HandNotice notice_{};
  std::unique_ptr<HeldHand> held_; // after the connection, so that it ends before the lock
};

} // namespace gk::store
