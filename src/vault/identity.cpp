#include "vault/identity.h"

#include "base/text/text.h"

#include <initializer_list>
#include <utility>

namespace gk::vault {

namespace {

std::string joined(std::initializer_list<std::string_view> parts) {
  std::string out;
  for (auto part : parts) {
    const auto word = base::trim(part);
    if (word.empty()) continue;
    if (!out.empty()) out += ' ';
    out += word;
  }
  return out;
}

bool isContinuation(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

/// Accents may follow their letter: U+0300-U+036F, which is CC 80 to CD AF.
bool isCombining(std::string_view character) {
  return character.size() == 2 && character >= "\xCC\x80" && character <= "\xCD\xAF";
}

std::size_t characterLength(std::string_view text) {
  std::size_t length = text.empty() ? 0 : 1;
  while (length < text.size() && isContinuation(text[length]))
    ++length;
  return length;
}

std::string_view firstLetter(std::string_view word) {
  std::size_t end = characterLength(word);
  while (true) {
    const auto rest = word.substr(end);
    const auto next = rest.substr(0, characterLength(rest));
    if (!isCombining(next)) return word.substr(0, end);
    end += next.size();
  }
}

base::Result<base::Done> checkText(std::string_view field, std::string_view text) {
  if (text.size() > maxTextBytes)
    return base::Error{base::ErrorCode::callMalformed,
                       "the " + std::string(field) + " is longer than " +
                           std::to_string(maxTextBytes) + " bytes; shorten it"};
  if (const auto sound = base::soundText(text); !sound)
    return base::Error{sound.error().code,
                       "the " + std::string(field) + ": " + sound.error().detail};
  return base::Done{};
}

} // namespace

std::string Identity::shownName() const {
  return joined({base::trim(nameUsed).empty() ? first : nameUsed, last});
}

std::string Identity::legalName() const {
  return joined({first, middle, last});
}

std::string Identity::headerName() const {
  const auto given = joined({base::trim(nameUsed).empty() ? first : nameUsed});
  const auto family = base::trim(last);
  if (given.empty() || family.empty()) return shownName();
  return given + ' ' + std::string(firstLetter(family)) + '.';
}

base::Result<base::Done> checkIdentity(const Identity& identity) {
  if (base::isBlank(identity.first) && base::isBlank(identity.last))
    return base::Error{base::ErrorCode::callMalformed,
                       "a student needs a first or a last name; one of them is enough"};
  if (identity.guardians.size() > maxGuardians)
    return base::Error{base::ErrorCode::callMalformed,
                       std::to_string(identity.guardians.size()) + " guardians are more than the " +
                           std::to_string(maxGuardians) +
                           " that are kept; leave out those not to be told"};
  using Field = std::pair<std::string_view, std::string_view>;
  std::vector<Field> fields{{"first name", identity.first},   {"middle name", identity.middle},
                            {"last name", identity.last},     {"name used", identity.nameUsed},
                            {"room", identity.room},          {"teacher", identity.teacher},
                            {"identity note", identity.note}, {"student ID", identity.studentId}};
  for (const auto& guardian : identity.guardians)
    fields.insert(fields.end(), {Field{"guardian's name", guardian.name},
                                 Field{"guardian's relation", guardian.relation},
                                 Field{"guardian's phone", guardian.phone},
                                 Field{"guardian's language", guardian.language}});
  for (const auto& [field, text] : fields)
    if (auto checked = checkText(field, text); !checked) return checked;
  return base::Done{};
}

std::string initials(std::string_view name) {
  std::string out;
  for (auto word : base::split(name, ' '))
    out += firstLetter(base::trim(word));
  return out;
}

} // namespace gk::vault
