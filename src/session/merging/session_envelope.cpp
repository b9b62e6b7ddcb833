#include "session/merging/envelope.h"
#include "session/part.h"
#include "session/session_write.h"
#include "session/values/short_laptop.h"

#include "base/bytes.h"
#include "base/text/text.h"
#include "followup/copies/merge_note.h"
#include "store/part.h"

#include <algorithm>
#include <tuple>
#include <utility>

// What goes to another laptop for a day, and what comes back from it.
namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

/// Ours: far more than a county's logbook of ten years, and no more than a laptop has memory for.
constexpr std::size_t mostEnvelopeBytes = std::size_t{1} << 30;

/// A draft beside the logbook that is gone when this is; one that a killed program left goes when
/// the logbook is opened again.
class Beside {
 public:
  static Result<Beside> of(const base::Path& book) {
    auto draft = base::makeDraft(book.has_parent_path() ? book.parent_path() : base::Path("."));
    if (!draft) return draft.error();
    return Beside(*std::move(draft));
  }
  Beside(Beside&& other) noexcept : path_(std::exchange(other.path_, {})) {}
  Beside& operator=(Beside&&) = delete;
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;
  ~Beside() {
    if (path_.empty()) return;
    std::error_code none; // nothing can be done about it here, and the next opening tries again
    for (const auto* more : {"", "-journal"})
      std::filesystem::remove(path_.string() + more, none);
  }
  [[nodiscard]] const base::Path& path() const { return path_; }

 private:
  explicit Beside(base::Path path) : path_(std::move(path)) {}

  base::Path path_;
};

/// A person knows the file by the name they gave, not by the draft's.
Error named(Error why, const base::Path& draft, const base::Path& file) {
  const auto hidden = draft.string();
  if (const auto at = why.detail.find(hidden); !hidden.empty() && at != std::string::npos)
    why.detail.replace(at, hidden.size(), file.string());
  return why;
}

std::span<const std::uint8_t> bytesOf(const std::string& text) {
  return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()};
}

Result<OpenedEnvelope> readEnvelope(const base::Path& file, const crypto::Secret& passphrase,
                                    BookKind kind) {
  const auto bytes = base::readFile(file, mostEnvelopeBytes);
  if (!bytes) return bytes.error();
  return openEnvelope(bytesOf(*bytes), passphrase, costOf(kind));
}

/// What is left of another file of that name would be taken for a part of the new one.
Result<base::Done> isFree(const base::Path& target) {
  for (const auto* more : {"", "-journal", "-wal", "-shm"}) {
    const base::Path path = target.string() + more;
    std::error_code unread;
    if (std::filesystem::exists(std::filesystem::symlink_status(path, unread)))
      return Error{ErrorCode::fileUnwritable,
                   path.string() + ": there is a file of that name already; choose another name. "
                                   "Nothing was written"};
  }
  return base::Done{};
}

std::string wordsOf(const followup::MergeNote& note) {
  std::vector<std::string> from;
  for (const auto& one : note.from)
    from.push_back(std::to_string(one.entries) + " of laptop ..." + session::shortName(one.laptop));
  return "logbook merged, " + base::counted(note.entries, "new entry", "new entries") +
         (from.empty() ? std::string() : " (" + base::join(from, ", ") + ")") +
         (note.erased == 0 ? std::string()
                           : ", " + base::counted(note.erased, "entry", "entries") +
                                 " of erased students removed");
}

} // namespace

Result<std::vector<std::string>> DayVerbs::bookActs() {
  std::vector<std::pair<base::Instant, std::string>> acts;
  const auto add = [&](const base::Stamp& stamp, const std::string& what) {
    std::string by;
    if (stamp.by.author)
      if (const auto who = only<roster::Member>(store::subjectIs(*stamp.by.author), "team member"))
        by = " by " + who->value.initials;
    acts.emplace_back(stamp.at.at, stamp.at.date().words() + by + ", laptop ..." +
                                       session::shortName(stamp.laptop) + ": " + what);
  };
  const auto merges = book_.current<followup::MergeNote>(store::everything());
  if (!merges) return merges.error();
  for (const auto& note : *merges)
    add(note.stamp, wordsOf(note.value));
  const auto changes = book_.current<roster::PassphraseChange>(store::everything());
  if (!changes) return changes.error();
  for (const auto& change : *changes)
    add(change.stamp, "the logbook's passphrase was changed");
  // Of two in one moment neither is before the other in every logbook, but their words are.
  std::ranges::sort(acts, {}, [](const auto& act) { return std::tie(act.first.utc, act.second); });
  std::vector<std::string> lines;
  for (auto& act : acts)
    lines.push_back(std::move(act.second));
  return lines;
}

List<followup::DayEnvelope> DayVerbs::dayEnvelopes() {
  return book_.current<followup::DayEnvelope>(store::everything());
}

Result<base::Done> DayVerbs::noteEnvelope(const Admission& may,
                                          const followup::DayEnvelope& envelope) {
  return book_.act(
      may.by(), world_.clock.now(), [&](store::Act& act) { act.add(envelope); },
      ruleOf(may.verb()).name);
}

Result<base::Done> DayVerbs::leaveOthersOut(const base::Path& copy, roster::SchoolId school) {
  const auto others = childrenBut(school);
  if (!others) return others.error();
  const auto next = nextNumber();
  if (!next) return next.error();
  const auto number = base::parseInt(next->substr(0, next->find('-')));
  if (!number) return number.error();
  return store::Parting::leaveOut(copy, {school, *number - 1}, *others);
}

Result<base::Done> DayVerbs::sealDay(By by, const base::Path& target,
                                     const std::optional<roster::SchoolId>& school,
                                     std::string passphrase, const base::Progress& progress) {
  const auto secret = crypto::Secret::taking(passphrase);
  const auto may = admit(Verb::noteEnvelope, by);
  if (!may) return may.error();
  const auto part = oneSchool();
  if (!part) return part.error();
  std::string name = *part ? (*part)->name : std::string();
  if (school) {
    if (auto has = hasSchool(*this, *school); !has) return has;
    const auto known = only<roster::School>(store::subjectIs(*school), "school");
    if (!known) return known.error();
    name = known->value.name;
  }
  if (auto free = isFree(target); !free) return free;
  const auto copy = Beside::of(book_.path());
  if (!copy) return copy.error();
  if (const auto made = book_.backUp(copy->path(), progress); !made)
    return named(made.error(), copy->path(), target);
  if (school && !*part)
    if (const auto left = leaveOthersOut(copy->path(), *school); !left)
      return named(left.error(), copy->path(), target);
  auto bytes = base::readFile(copy->path(), mostEnvelopeBytes);
  if (!bytes) return bytes.error();
  const auto today = world_.clock.now().date();
  const EnvelopeNote note{base::makeUuid7(world_.clock.now().at, world_.random),
                          book_.identity().text(), today, name};
  const auto sealed = sealEnvelope(note, bytesOf(*bytes), secret, costOf(kind_), world_.random);
  if (!sealed) return sealed.error();
  if (progress.isStopped()) return Error{ErrorCode::workCanceled, "no envelope was made"};
  if (const auto written = base::writeNewFile(target, base::textOf(*sealed)); !written)
    return written.error();
  auto noted = noteEnvelope(*may, {note.name.text(), today, false});
  if (noted) return noted;
  std::error_code left; // one that the logbook does not know of is none
  std::filesystem::remove(target, left);
  return noted.error();
}

Result<store::Merged> DayVerbs::absorbEnvelope(By by, const base::Path& file,
                                               std::string passphrase, const Agreed& agreed,
                                               const base::Progress& progress) {
  const auto secret = crypto::Secret::taking(passphrase);
  const auto may = admit(Verb::noteEnvelope, by);
  if (!may) return may.error();
  const auto admitted = admitMerge(agreed);
  if (!admitted) return admitted.error();
  const auto opened = readEnvelope(file, secret, kind_);
  if (!opened) return opened.error();
  const auto& note = opened->note;
  if (note.book != book_.identity().text())
    return Error{ErrorCode::envelopeUnreadable,
                 "this day envelope is of another program's logbook; nothing was changed"};
  const auto taken = dayEnvelopes();
  if (!taken) return taken.error();
  for (const auto& one : *taken)
    if (one.value.name == note.name.text())
      return Error{ErrorCode::envelopeTaken,
                   std::string("this day envelope was ") +
                       (one.value.merged ? "merged" : "sealed") + " by this logbook already, on " +
                       one.stamp.at.date().words() + "; nothing was changed"};
  const auto copy = Beside::of(book_.path());
  if (!copy) return copy.error();
  if (const auto written = base::replaceFile(copy->path(), base::textOf(opened->book)); !written)
    return named(written.error(), copy->path(), file);
  auto merged = book_.absorb(copy->path(), world_.clock.now().at, progress, *admitted);
  if (!merged) return named(merged.error(), copy->path(), file);
  if (const auto noted = noteEnvelope(*may, {note.name.text(), note.day, true}); !noted)
    return Error{noted.error().code,
                 "what the day envelope holds was merged and is kept; only the note that it was "
                 "merged could not be written (" +
                     noted.error().detail +
                     "). Merge it again once that is put right: nothing comes in twice"};
  return merged;
}

Result<base::Done> DayVerbs::unpackEnvelope(const base::Path& file, std::string passphrase,
                                            const base::Path& target, BookKind kind) {
  const auto secret = crypto::Secret::taking(passphrase);
  if (auto free = isFree(target); !free) return free;
  const auto opened = readEnvelope(file, secret, kind);
  if (!opened) return opened.error();
  // Looked at before it has the name: what does not open is not there afterwards.
  const auto draft = Beside::of(target);
  if (!draft) return draft.error();
  const auto bytes = base::textOf(opened->book);
  if (const auto written = base::replaceFile(draft->path(), bytes); !written)
    return named(written.error(), draft->path(), target);
  {
    const base::LaptopId nobody(base::Uuid{}); // stamps nothing
    const auto book = store::Book::open(draft->path(), nobody, store::Access::readOnly,
                                        store::Durability::everyAct, base::Instant{});
    if (!book && book.error().code != ErrorCode::storeReadOnly) // of an older version
      return Error{book.error().code,
                   "the day envelope opens, but what it holds is no whole logbook; nothing was "
                   "written; have it sealed again"};
    if (book && book->identity().text() != opened->note.book)
      return Error{ErrorCode::storeDamaged,
                   "the day envelope holds another logbook than it says; nothing was written; have "
                   "it sealed again"};
  }
  return base::writeNewFile(target, bytes);
}

} // namespace gk::session
