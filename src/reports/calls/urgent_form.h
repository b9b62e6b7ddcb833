#pragma once

#include "reports/letters/letter.h"

namespace gk::reports {

class DayView;

/// Someone to call about a child, from the sealed card.
struct CallPerson {
  std::string name;
  std::string relation;
  std::string phone;
  std::string language;
};
using CallPeople = std::map<roster::ChildId, std::vector<CallPerson>>;

/// What the school nurse gets for a child who needs care within 48 hours: one child a sheet.
struct UrgentForm {
  struct Attempt {
    std::string when;
    std::string who;
    std::string how;
    std::string result;
    std::string note;
  };
  roster::ChildId child;
  std::string number;
  std::string legalName;
  std::string nameUsed;
  std::string room;
  LetterFrame frame;
  std::string finding; ///< in plain words, no diagnosis
  base::Date dentistBy;
  std::vector<CallPerson> people; ///< in the order in which to call
  std::vector<Attempt> attempts;  ///< logged so far, by time
  bool reached = false;           ///< a guardian
  bool nurseTold = false;
};

/// Of every child with an urgent finding on the day, by room and name. A child without a card is
/// headed by its number.
std::vector<UrgentForm> urgentForms(const DayRecords& records, const LetterFrame& frame,
                                    const LetterCards& cards, const CallPeople& people);

std::string toHtmlBody(const UrgentForm& form);
std::string toHtml(const UrgentForm& form);

} // namespace gk::reports
