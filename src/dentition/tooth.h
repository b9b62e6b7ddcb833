#pragma once

#include "base/result.h"

#include <array>
#include <compare>
#include <string>
#include <string_view>
#include <vector>

namespace gk::dentition {

enum class Dentition { permanent, primary };
/// In the order in which ISO 3950 numbers them, as the child sees left and right.
enum class Quadrant { upperRight, upperLeft, lowerLeft, lowerRight };
/// How a tooth is shown. What is stored never depends on it.
enum class Notation { universal, iso3950 };

/// One tooth: permanent positions 1-8, primary 1-5, counted from the midline. Supernumerary teeth
/// have no number here; they are a note on the nearest tooth.
class Tooth {
 public:
  /// Fails with `toothMalformed` when there is no such position.
  static base::Result<Tooth> of(Dentition dentition, Quadrant quadrant, int position);
  /// ISO 3950:2016, two digits: 11-48 permanent, 51-85 primary.
  static base::Result<Tooth> fromIso(int code);
  /// Reads "3" or "A" (universal) or "16" (iso3950) in that notation only.
  static base::Result<Tooth> parse(std::string_view text, Notation notation);

  [[nodiscard]] Dentition dentition() const { return dentition_; }
  [[nodiscard]] Quadrant quadrant() const { return quadrant_; }
  [[nodiscard]] int position() const { return position_; }

  [[nodiscard]] bool isPrimary() const { return dentition_ == Dentition::primary; }
  [[nodiscard]] bool isUpper() const {
    return quadrant_ == Quadrant::upperRight || quadrant_ == Quadrant::upperLeft;
  }
  [[nodiscard]] bool isRight() const {
    return quadrant_ == Quadrant::upperRight || quadrant_ == Quadrant::lowerRight;
  }
  [[nodiscard]] bool isMolar() const { return position_ >= (isPrimary() ? 4 : 6); }
  [[nodiscard]] bool isPremolar() const {
    return !isPrimary() && (position_ == 4 || position_ == 5);
  }
  [[nodiscard]] bool isFirstPermanentMolar() const { return !isPrimary() && position_ == 6; }
  [[nodiscard]] bool isSecondPermanentMolar() const { return !isPrimary() && position_ == 7; }

  [[nodiscard]] int iso() const;
  /// "3", or "A" for primary teeth.
  [[nodiscard]] std::string universal() const;
  [[nodiscard]] std::string number(Notation notation) const;
  /// "upper right first molar", "lower left primary second molar".
  [[nodiscard]] std::string words() const;
  /// "upper right first molar, 3": the words always, since one number means different teeth in
  /// the two notations.
  [[nodiscard]] std::string shown(Notation notation) const;

  auto operator<=>(const Tooth&) const = default;

 private:
  Tooth(Dentition dentition, Quadrant quadrant, int position)
      : dentition_(dentition), quadrant_(quadrant), position_(position) {}

  Dentition dentition_;
  Quadrant quadrant_;
  int position_;
};

/// A tooth that certainly exists; aborts otherwise. For constants in code.
Tooth toothAt(int iso);

/// The eight permanent molars in chart order: upper right to upper left, lower left to lower right.
const std::array<Tooth, 8>& permanentMolars();
/// 16, 26, 36, 46.
const std::array<Tooth, 4>& firstMolars();

/// What another notation would make of the same number, where that is another tooth: empty when
/// there is no clash.
std::string clashWords(std::string_view number, Notation meant);

} // namespace gk::dentition
