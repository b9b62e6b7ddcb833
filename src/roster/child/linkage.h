#pragma once

#include "base/time/date.h"
#include "dentition/eruption.h"

#include <string>

namespace gk::roster {

/// Who a child is, as two lists are held against each other. Names as base::folded gives them.
struct LinkPerson {
  std::string first{};
  std::string middle{};
  std::string last{};
  std::string called{}; ///< the first name that is used, where it is another
  base::Date birth;
  dentition::Sex sex = dentition::Sex::notStated;
  std::string studentId{}; ///< the school's own as studentIdKey, where it is known and no other's
};

/// How far two agree in one respect.
enum class Agreement { unsaid, same, near, differs };

struct LinkAgreements {
  Agreement first;
  Agreement last;
  Agreement birth;
  Agreement sex;
  Agreement studentId;
};

LinkAgreements agreements(const LinkPerson& one, const LinkPerson& other);

/// Fellegi and Sunter's weight of a pair (J Am Stat Assoc 1969; 64: 1183-1210): the sum, over what
/// is compared, of log2(m/u), where m is how often the same child's two records agree so and u how
/// often two children's do. The m are this program's own judgment and so is said to be; the u are
/// worked out in docs/methods.md, section 10. The same for both orders of the pair.
double linkWeight(const LinkAgreements& agree);
double linkWeight(const LinkPerson& one, const LinkPerson& other);

enum class LinkVerdict {
  same,     ///< taken as one child, unless another fits as well
  unsure,   ///< a person looks at the two
  different ///< never shown
};

/// Names and birth date, also of a child of one name, reach it.
constexpr double leastSame = 17;
/// What is less has only a birth date in common, or only names: namesakes.
constexpr double leastUnsure = 10;

/// A near name or birth date is never the same unasked, whatever the weight, nor is another student
/// ID. With a student ID that agrees they are the same, but only where first name and birth date
/// are the same or near; else a person looks at the two.
LinkVerdict verdictOn(const LinkAgreements& agree);

} // namespace gk::roster
