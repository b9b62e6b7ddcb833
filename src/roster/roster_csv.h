#pragma once

#include "roster/background.h"
#include "roster/consent.h"

#include <string_view>

namespace gk::roster {

/// What a roster file says about a child's form. Not checked against `checkForm`: a yes that fails
/// there is entered as incomplete.
struct RosterConsent {
  ConsentState state = ConsentState::notReturned;
  ServiceSet services;
  std::optional<base::Date> signedOn;
  std::optional<base::Date> receivedOn;
  std::optional<base::Date> validUntil;
  HistoryAnswered history = HistoryAnswered::no; ///< a blank history is not answered
  bool operator==(const RosterConsent&) const = default;
};

/// One child of a school's list. Names stay plain text here, as typed but trimmed; whoever stores
/// them seals them.
struct RosterLine {
  std::size_t line;   ///< in the file, the header is 1
  std::string number; ///< with its check digit; empty when the book is to give one
  std::string first;
  std::string middle;
  std::string last; ///< first or last is filled; many children have one name
  std::string nameUsed;
  base::Date birth;
  BirthVerdict birthVerdict; ///< fine, or ask; an impossible one is a problem of the file
  std::string grade;         ///< "K", "1" ... "12"
  std::string room;
  std::string teacher;
  dentition::Sex sex = dentition::Sex::notStated;
  std::string guardian;
  std::string relation;               ///< as written
  Relation signer = Relation::parent; ///< of the words known; anything else is `other`, so reviewed
  std::string phone;
  std::string language;
  RosterConsent consent;
  EthnicitySet groups{}; ///< empty: not stated
  Payer payer = Payer::unknown;
  bool operator==(const RosterLine&) const = default;
};

/// Reads a roster: CSV as base::parseCsv has it, with the columns of docs/data-dictionary.md in
/// any order. Needed: `first` or `last`, `birth_date`, `grade`. All lines or none: on trouble the
/// error names line and column of the first five problems and how many there are (`csvMalformed`,
/// or `dateMalformed` when every problem is a date). It never repeats a cell, which may hold a
/// name.
base::Result<std::vector<RosterLine>> readRoster(std::string_view csv, base::Date today);

} // namespace gk::roster
