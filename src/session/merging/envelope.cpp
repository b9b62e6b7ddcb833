#include "session/merging/envelope.h"

#include "crypto/stream.h"
#include "vault/wrapping.h"

#include <algorithm>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using crypto::Bytes;

namespace {

constexpr std::string_view envelopeMark = "gk day envelope 1\n";
constexpr std::string_view anyEnvelope = "gk day envelope ";
constexpr std::size_t mostNote = 4096;
constexpr std::size_t uuidSize = 16;
constexpr std::size_t mostDays = 83'000; ///< from 1970 on, into 2197

void put(Bytes& into, std::span<const std::uint8_t> bytes) {
  into.insert(into.end(), bytes.begin(), bytes.end());
}

void putSize(Bytes& into, std::size_t size) {
  for (int shift = 0; shift < 32; shift += 8)
    into.push_back(static_cast<std::uint8_t>(size >> shift));
}

/// Reads what was authenticated; a version's writer may still have been wrong.
class EnvelopeReader {
 public:
  explicit EnvelopeReader(std::span<const std::uint8_t> bytes) : rest_(bytes) {}

  [[nodiscard]] bool isSound() const { return isSound_; }
  std::span<const std::uint8_t> take(std::size_t size) {
    if (size > rest_.size()) {
      isSound_ = false;
      return {};
    }
    const auto taken = rest_.first(size);
    rest_ = rest_.subspan(size);
    return taken;
  }
  base::Uuid uuid() {
    base::Uuid id{};
    std::ranges::copy(take(uuidSize), id.bytes.begin());
    return id;
  }
  std::size_t number() {
    std::size_t read = 0;
    int shift = 0;
    for (const auto byte : take(4)) {
      read |= static_cast<std::size_t>(byte) << shift;
      shift += 8;
    }
    return read;
  }
  std::string text() {
    const auto size = number();
    if (size > mostNote) isSound_ = false;
    const auto bytes = isSound_ ? take(size) : std::span<const std::uint8_t>();
    return {bytes.begin(), bytes.end()};
  }
  [[nodiscard]] std::span<const std::uint8_t> rest() const { return rest_; }

 private:
  std::span<const std::uint8_t> rest_;
  bool isSound_ = true;
};

void putText(Bytes& into, std::string_view text) {
  putSize(into, text.size());
  into.insert(into.end(), text.begin(), text.end());
}

Result<crypto::Key> envelopeKey(const crypto::Secret& passphrase,
                                std::span<const std::uint8_t> salt, crypto::KdfCost cost) {
  auto key = crypto::deriveKey(passphrase, salt, cost);
  if (!key) return key.error();
  return crypto::keyFor(*key, "groovekeeper day envelope");
}

} // namespace

Result<Bytes> sealEnvelope(const EnvelopeNote& note, std::span<const std::uint8_t> book,
                           const crypto::Secret& passphrase, crypto::KdfCost cost,
                           base::Random& random) {
  // All of a logbook travels in it, so it is no weaker than the logbook's own.
  if (const auto strong = vault::checkPassphrase(passphrase); !strong) return strong.error();
  Bytes head(envelopeMark.begin(), envelopeMark.end());
  Bytes salt(crypto::saltSize);
  random.fill(salt);
  put(head, salt);
  const auto key = envelopeKey(passphrase, salt, cost);
  if (!key) return key.error();
  Bytes plain;
  put(plain, note.name.bytes);
  putText(plain, note.book);
  putSize(plain, static_cast<std::size_t>(note.day.days().time_since_epoch().count()));
  putText(plain, note.school.substr(0, mostNote));
  put(plain, book);
  const auto sealed = crypto::sealStream(*key, plain, head);
  crypto::wipe(plain);
  put(head, sealed);
  return head;
}

Result<OpenedEnvelope> openEnvelope(std::span<const std::uint8_t> file,
                                    const crypto::Secret& passphrase, crypto::KdfCost cost) {
  const auto begins = [&](std::string_view mark) {
    return file.size() >= mark.size() && std::equal(mark.begin(), mark.end(), file.begin());
  };
  const auto headSize = envelopeMark.size() + crypto::saltSize;
  if (!begins(envelopeMark) || file.size() < headSize)
    return Error{ErrorCode::envelopeUnreadable,
                 begins(anyEnvelope)
                     ? "this day envelope is damaged, or of a newer version of the program; "
                       "nothing was read"
                     : "this file is no day envelope; nothing was read"};
  const auto head = file.first(headSize);
  const auto key = envelopeKey(passphrase, head.subspan(envelopeMark.size()), cost);
  if (!key) return key.error();
  auto plain = crypto::openStream(*key, file.subspan(headSize), head);
  if (!plain)
    return Error{ErrorCode::envelopeUnreadable,
                 "the day envelope does not open: its passphrase is another, or it was cut off or "
                 "changed. Nothing was read; fetch the envelope again"};
  EnvelopeReader reader(*plain);
  const auto name = reader.uuid();
  auto book = reader.text();
  const auto days = reader.number();
  auto school = reader.text();
  if (!reader.isSound() || days > mostDays)
    return Error{ErrorCode::envelopeUnreadable, "the day envelope was written by a faulty program"};
  const auto rest = reader.rest();
  return OpenedEnvelope{{name, std::move(book),
                         base::Date::fromDays(std::chrono::sys_days(std::chrono::days(days))),
                         std::move(school)},
                        Bytes(rest.begin(), rest.end())};
}

} // namespace gk::session
