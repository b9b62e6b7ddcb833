#include "vault/identity_bytes.h"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

namespace gk::vault {

namespace {

using Bytes = std::vector<std::uint8_t>;

constexpr std::uint8_t version = 1;
constexpr std::size_t block = 128;

static_assert(maxTextBytes <= 0xFFFF && maxGuardians <= 0xFF);

/// The texts in the order of the format; for writing and reading alike.
template <class I>
auto childTexts(I& identity) {
  return std::array{&identity.first, &identity.middle,  &identity.last, &identity.nameUsed,
                    &identity.room,  &identity.teacher, &identity.note};
}

template <class G>
auto guardianTexts(G& guardian) {
  return std::array{&guardian.name, &guardian.relation, &guardian.phone, &guardian.language};
}

void putNumber(Bytes& out, std::size_t value) {
  out.push_back(static_cast<std::uint8_t>(value & 0xFFU));
  out.push_back(static_cast<std::uint8_t>(value >> 8U & 0xFFU));
}

void putText(Bytes& out, std::string_view text) {
  putNumber(out, text.size());
  out.insert(out.end(), text.begin(), text.end());
}

/// Reads on from the front; once anything is missing, all that follows is too.
class Reader {
 public:
  explicit Reader(std::span<const std::uint8_t> rest) : rest_(rest) {}

  std::size_t byte() {
    const auto taken = take(1);
    return taken.empty() ? 0 : taken[0];
  }
  std::size_t number() {
    const auto low = byte();
    return low + 256 * byte();
  }
  std::string text() {
    const auto taken = take(number());
    return {taken.begin(), taken.end()};
  }
  [[nodiscard]] bool isShort() const { return isShort_; }
  [[nodiscard]] std::span<const std::uint8_t> rest() const { return rest_; }

 private:
  std::span<const std::uint8_t> take(std::size_t count) {
    isShort_ = isShort_ || count > rest_.size();
    if (isShort_) return {};
    const auto taken = rest_.first(count);
    rest_ = rest_.subspan(count);
    return taken;
  }

  std::span<const std::uint8_t> rest_;
  bool isShort_ = false;
};

base::Error damaged(const std::string& what) {
  return {base::ErrorCode::vaultDamaged,
          "a child's sealed identity " + what + "; restore the book from a backup"};
}

} // namespace

Bytes encode(const Identity& identity) {
  base::require(checkIdentity(identity).has_value(), "an unchecked identity was sealed");
  Bytes out{version};
  putNumber(out, static_cast<std::size_t>(identity.birth.year()));
  out.push_back(static_cast<std::uint8_t>(identity.birth.month()));
  out.push_back(static_cast<std::uint8_t>(identity.birth.day()));
  for (const auto* text : childTexts(identity))
    putText(out, *text);
  out.push_back(static_cast<std::uint8_t>(identity.guardians.size()));
  for (const auto& guardian : identity.guardians)
    for (const auto* text : guardianTexts(guardian))
      putText(out, *text);
  if (!identity.studentId.empty()) putText(out, identity.studentId);
  out.resize((out.size() + block - 1) / block * block);
  return out;
}

base::Result<Identity> decode(std::span<const std::uint8_t> bytes) {
  if (bytes.empty() || bytes.size() % block != 0)
    return damaged("has " + std::to_string(bytes.size()) + " bytes, no multiple of 128");
  if (bytes[0] != version)
    return damaged("is of version " + std::to_string(bytes[0]) +
                   ", which this program does not know");
  Reader reader(bytes.subspan(1));
  const auto year = static_cast<int>(reader.number());
  const auto month = static_cast<unsigned>(reader.byte());
  const auto day = static_cast<unsigned>(reader.byte());
  const auto birth = base::Date::of(year, month, day);
  if (!birth) return damaged("holds a birth date that does not exist");

  Identity identity{.birth = *birth};
  for (auto* text : childTexts(identity))
    *text = reader.text();
  for (auto left = reader.byte(); left > 0 && !reader.isShort(); --left)
    for (auto* text : guardianTexts(identity.guardians.emplace_back()))
      *text = reader.text();
  // Where there is none, the zeros at the end are the length of nothing and of the end.
  constexpr std::size_t ofLength = 2;
  const auto end = reader.rest();
  if (end.size() >= ofLength) identity.studentId = reader.text();
  if (reader.isShort()) return damaged("is cut off");
  const auto rest = identity.studentId.empty() ? end : reader.rest();
  if (rest.size() >= block || std::any_of(rest.begin(), rest.end(), [](auto b) { return b != 0; }))
    return damaged("continues after its end");
  if (const auto checked = checkIdentity(identity); !checked)
    return damaged("breaks a rule: " + checked.error().detail);
  return identity;
}

} // namespace gk::vault
