#include "session/envelope.h"
#include "session/session_write.h"

#include <algorithm>

// What goes to another laptop for a day, and what comes back from it.
namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

/// Ours: far more than a county's logbook of ten years, and no more than a laptop has memory for.
constexpr std::size_t mostEnvelopeBytes = std::size_t{1} << 30;

/// A file beside the logbook that is gone when this is.
class Beside {
 public:
  Beside(const base::Path& book, base::Random& random)
      : path_(book.parent_path() / (".envelope-" + std::to_string(random.next()) + ".gkbook")) {}
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;
  ~Beside() {
    std::error_code none; // a file that cannot be removed is swept with the next opening's drafts
    for (const auto* more : {"", "-wal", "-shm", "-journal"})
      std::filesystem::remove(path_.string() + more, none);
  }
  [[nodiscard]] const base::Path& path() const { return path_; }

 private:
  base::Path path_;
};

std::string_view textOf(const crypto::Bytes& bytes) {
  // A byte is a byte, whatever its sign.
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

std::span<const std::uint8_t> bytesOf(const std::string& text) {
  return {reinterpret_cast<const std::uint8_t*>(text.data()), text.size()};
}

Result<OpenedEnvelope> readEnvelope(const base::Path& file, std::string passphrase, BookKind kind) {
  const auto bytes = base::readFile(file, mostEnvelopeBytes);
  if (!bytes) {
    crypto::wipe(passphrase);
    return bytes.error();
  }
  return openEnvelope(bytesOf(*bytes), std::move(passphrase), costOf(kind));
}

} // namespace

List<followup::DayEnvelope> DayVerbs::dayEnvelopes() {
  return book_.current<followup::DayEnvelope>(store::everything());
}

Result<base::Done> DayVerbs::noteEnvelope(const Admission& may,
                                          const followup::DayEnvelope& envelope) {
  return book_.act(
      may.by(), world_.clock.now(), [&](store::Act& act) { act.add(envelope); },
      ruleOf(may.verb()).name);
}

Result<base::Done> DayVerbs::sealDay(By by, const base::Path& target, const std::string& school,
                                     std::string passphrase) {
  const auto may = admit(Verb::noteEnvelope, by);
  if (!may) {
    crypto::wipe(passphrase);
    return may.error();
  }
  const Beside copy(book_.path(), world_.random);
  if (const auto made = book_.backUp(copy.path()); !made) return made.error();
  auto bytes = base::readFile(copy.path(), mostEnvelopeBytes);
  if (!bytes) return bytes.error();
  const auto today = world_.clock.now().date();
  const EnvelopeNote note{base::makeUuid7(world_.clock.now().at, world_.random),
                          book_.identity().text(), today, school};
  const auto sealed =
      sealEnvelope(note, bytesOf(*bytes), std::move(passphrase), costOf(kind_), world_.random);
  if (!sealed) return sealed.error();
  if (const auto written = base::replaceFile(target, textOf(*sealed)); !written)
    return written.error();
  return noteEnvelope(*may, {note.name.text(), today, false});
}

Result<store::Merged> DayVerbs::absorbEnvelope(By by, const base::Path& file,
                                               std::string passphrase, store::Copies copies,
                                               const base::Progress& progress) {
  const auto may = admit(Verb::noteEnvelope, by);
  if (!may) {
    crypto::wipe(passphrase);
    return may.error();
  }
  const auto opened = readEnvelope(file, std::move(passphrase), kind_);
  if (!opened) return opened.error();
  const auto& note = opened->note;
  if (note.book != book_.identity().text())
    return Error{ErrorCode::storeNotALogbook,
                 "this day envelope is of another program's logbook; nothing was changed"};
  const auto taken = dayEnvelopes();
  if (!taken) return taken.error();
  for (const auto& one : *taken)
    if (one.value.name == note.name.text())
      return Error{ErrorCode::recordChanged,
                   std::string("this day envelope was ") +
                       (one.value.merged ? "merged" : "sealed") + " by this logbook already, on " +
                       one.stamp.at.date().words() + "; nothing was changed"};
  const Beside copy(book_.path(), world_.random);
  if (const auto written = base::replaceFile(copy.path(), textOf(opened->book)); !written)
    return written.error();
  auto merged = book_.absorb(copy.path(), world_.clock.now().at, progress, copies);
  if (!merged) return merged.error();
  const auto noted = noteEnvelope(*may, {note.name.text(), note.day, true});
  if (!noted) return noted.error();
  return merged;
}

Result<base::Done> DayVerbs::unpackEnvelope(const base::Path& file, std::string passphrase,
                                            const base::Path& target, BookKind kind) {
  const auto opened = readEnvelope(file, std::move(passphrase), kind);
  if (!opened) return opened.error();
  std::error_code trouble;
  if (std::filesystem::exists(target, trouble) || trouble)
    return Error{ErrorCode::fileUnwritable,
                 "there is a file of that name already; choose another. Nothing was written"};
  return base::replaceFile(target, textOf(opened->book));
}

} // namespace gk::session
