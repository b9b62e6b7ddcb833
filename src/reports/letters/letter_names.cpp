#include "reports/letters/letter_names.h"

#include <algorithm>

namespace gk::reports {

const std::vector<LetterName>& letterPlaceholders() {
  static const std::vector<LetterName> all{
      {"child", true},
      {"name", true},
      {"date", true},
      {"school", true},
      {"program", true},
      {"phone", true},
      {"reader", false, {"reader"}},
      {"sealed_count", true, {"sealed", "sealed_one", "sealed_many"}},
      {"sealed_where", true, {"sealed", "sealed_one", "sealed_many"}},
      {"resealed_count", false, {"resealed", "resealed_one", "resealed_many"}},
      {"resealed_where", true, {"resealed", "resealed_one", "resealed_many"}},
      {"repaired_count", false, {"repaired", "repaired_one", "repaired_many"}},
      {"repaired_where", true, {"repaired", "repaired_one", "repaired_many"}},
      {"covered_count", false, {"covered", "covered_one", "covered_many"}},
      {"covered_where", true, {"covered", "covered_one", "covered_many"}},
      {"unfinished_count", true, {"unfinished", "unfinished_one", "unfinished_many"}},
      {"kept_count", true, {"kept", "kept_one", "kept_many"}},
      {"decay_count", false, {"decay_one", "decay_many"}},
      {"dentist_by", true, {"early", "urgent"}},
      {"replaces_date", true, {"replaces"}},
      {"language_asked", true, {"interpreter"}},
  };
  return all;
}

const std::vector<LetterName>& letterQuestions() {
  static const std::vector<LetterName> all{
      {"reader", false},     // it is known who reads this
      {"student", true},     // the reader is the student, who is of age
      {"interpreter", true}, // the reader's language has no template
      {"replaces", true},    // an earlier letter said something else
      {"absent", true},      // not at school that day
      {"seen", false},       // not absent
      {"stopped", true},     // consent was withdrawn while care went on
      {"done", false},       // something was done to a tooth
      {"sealants", false},   // of which something is a sealant
      {"sealed", false},
      {"sealed_one", false},
      {"sealed_many", false},
      {"resealed", false},
      {"resealed_one", false},
      {"resealed_many", false},
      {"repaired", false},
      {"repaired_one", false},
      {"repaired_many", false},
      {"covered", false},
      {"covered_one", false},
      {"covered_many", false},
      {"unfinished", false},
      {"unfinished_one", false},
      {"unfinished_many", false},
      {"kept", false},
      {"kept_one", false},
      {"kept_many", false},
      {"varnish", true},
      {"not_treated", true}, // seen, teeth were meant to be sealed, and none
                             // was
      {"fine", true},        // no need for a dentist was seen
      {"decay", false},      // a tooth may have a cavity
      {"decay_one", false},
      {"decay_many", false},
      {"early", true},
      {"urgent", true},
      {"pain", false},
      {"swelling", true},
      {"injury", false},
      {"sore", false},
      {"reached", true},
      {"tried", true},
  };
  return all;
}

const LetterName* findName(const std::vector<LetterName>& names, std::string_view name) {
  const auto at = std::ranges::find(names, name, &LetterName::name);
  return at == names.end() ? nullptr : &*at;
}

} // namespace gk::reports
