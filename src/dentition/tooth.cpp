#include "dentition/tooth.h"

#include "base/text/text.h"

namespace gk::dentition {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

constexpr std::array<std::string_view, 4> quadrantWords{"upper right", "upper left", "lower left",
                                                        "lower right"};
constexpr std::array<std::string_view, 8> permanentWords{
    "central incisor", "lateral incisor", "canine",       "first premolar",
    "second premolar", "first molar",     "second molar", "third molar"};
constexpr std::array<std::string_view, 5> primaryWords{
    "primary central incisor", "primary lateral incisor", "primary canine", "primary first molar",
    "primary second molar"};

int last(Dentition dentition) {
  return dentition == Dentition::permanent ? 8 : 5;
}

std::size_t index(Quadrant quadrant) {
  return static_cast<std::size_t>(quadrant);
}

/// What was typed or stored is not repeated: it stands in a child's row.
Error noSuchTooth(std::string_view hint) {
  return {ErrorCode::toothMalformed, "that is not a tooth; " + std::string(hint)};
}

/// Place along the arches, 0-based, in the order in which the universal system counts: from the
/// upper right back tooth to the upper left, then lower left to lower right.
int universalPlace(const Tooth& tooth) {
  const int n = last(tooth.dentition());
  switch (tooth.quadrant()) {
  case Quadrant::upperRight:
    return n - tooth.position();
  case Quadrant::upperLeft:
    return n + tooth.position() - 1;
  case Quadrant::lowerLeft:
    return 3 * n - tooth.position();
  case Quadrant::lowerRight:
    return 3 * n + tooth.position() - 1;
  }
  base::fail("no such quadrant");
}

Result<Tooth> fromUniversalPlace(Dentition dentition, int place) {
  const int n = last(dentition);
  const auto quadrant = static_cast<Quadrant>(place / n);
  const bool towardsMidline = place / n % 2 == 0;
  const int along = place % n;
  return Tooth::of(dentition, quadrant, towardsMidline ? n - along : along + 1);
}

Result<Tooth> parseUniversal(std::string_view text) {
  constexpr std::string_view hint = "the universal numbers are 1 to 32, primary teeth A to T";
  if (text.size() == 1 && text[0] >= 'A' && text[0] <= 'T')
    return fromUniversalPlace(Dentition::primary, text[0] - 'A');
  const auto number = base::parseInt(text);
  if (!number || *number < 1 || *number > 32) return noSuchTooth(hint);
  return fromUniversalPlace(Dentition::permanent, static_cast<int>(*number) - 1);
}

} // namespace

Result<Tooth> Tooth::of(Dentition dentition, Quadrant quadrant, int position) {
  if (position < 1 || position > last(dentition))
    return noSuchTooth("positions go from 1 to 8, primary teeth to 5");
  return Tooth(dentition, quadrant, position);
}

Result<Tooth> Tooth::fromIso(int code) {
  const int first = code / 10;
  constexpr std::string_view hint = "ISO 3950 numbers are 11 to 48, primary teeth 51 to 85";
  if (first < 1 || first > 8) return noSuchTooth(hint);
  const auto dentition = first <= 4 ? Dentition::permanent : Dentition::primary;
  auto tooth = of(dentition, static_cast<Quadrant>((first - 1) % 4), code % 10);
  if (!tooth) return noSuchTooth(hint);
  return tooth;
}

Result<Tooth> Tooth::parse(std::string_view text, Notation notation) {
  text = base::trim(text);
  if (notation == Notation::universal) return parseUniversal(text);
  const auto code = base::parseInt(text);
  if (!code || *code < 11 || *code > 85)
    return noSuchTooth("ISO 3950 numbers are 11 to 48, primary teeth 51 to 85");
  return fromIso(static_cast<int>(*code));
}

int Tooth::iso() const {
  return (static_cast<int>(quadrant_) + (isPrimary() ? 5 : 1)) * 10 + position_;
}

std::string Tooth::universal() const {
  const int place = universalPlace(*this);
  if (isPrimary()) return {static_cast<char>('A' + place)};
  return std::to_string(place + 1);
}

std::string Tooth::number(Notation notation) const {
  return notation == Notation::universal ? universal() : std::to_string(iso());
}

std::string Tooth::words() const {
  const auto place = static_cast<std::size_t>(position_ - 1);
  return std::string(quadrantWords.at(index(quadrant_))) + " " +
         std::string(isPrimary() ? primaryWords.at(place) : permanentWords.at(place));
}

std::string Tooth::shown(Notation notation) const {
  return words() + ", " + number(notation);
}

Tooth toothAt(int iso) {
  const auto tooth = Tooth::fromIso(iso);
  base::require(tooth.has_value(), "a tooth constant that is no tooth");
  return *tooth;
}

const std::array<Tooth, 8>& permanentMolars() {
  static const std::array<Tooth, 8> teeth{toothAt(17), toothAt(16), toothAt(26), toothAt(27),
                                          toothAt(37), toothAt(36), toothAt(46), toothAt(47)};
  return teeth;
}

const std::array<Tooth, 4>& firstMolars() {
  static const std::array<Tooth, 4> teeth{toothAt(16), toothAt(26), toothAt(36), toothAt(46)};
  return teeth;
}

std::string clashWords(std::string_view number, Notation meant) {
  const auto other = meant == Notation::universal ? Notation::iso3950 : Notation::universal;
  const auto read = Tooth::parse(number, meant);
  const auto misread = Tooth::parse(number, other);
  if (!read || !misread || *read == *misread) return {};
  return misread->words();
}

} // namespace gk::dentition
