#pragma once

#include "telling/story.h"

namespace gk::demo {

/// What a form of the story allows.
struct FormTerms {
  Autumn autumn;
  base::Date received;
  bool forTwoYears = false; ///< this and the next school year, with "recheck and replace" ticked
};

/// The students of each grade that the program serves.
void enterEnrollments(Story& story, Autumn autumn);

/// A child as typed from its form; the number's digits are `digits`, or the next free ones.
session::NewChild newChild(Story& story, std::size_t school, const std::string& grade,
                           const session::Identity& identity, dentition::Sex sex,
                           std::optional<int> digits = std::nullopt);
/// An invented child of that grade in that fall.
session::NewChild inventedChild(Story& story, Autumn autumn, std::size_t school,
                                const std::string& grade);

roster::Consent yesForm(const Story& story, roster::ChildId child, const FormTerms& terms);
roster::Consent noForm(const Story& story, roster::ChildId child, const FormTerms& terms);
/// It lacks its signature.
roster::Consent incompleteForm(const Story& story, roster::ChildId child, const FormTerms& terms);
void enterForm(Story& story, const roster::Consent& form);

/// Invented children with forms that are no yes, so that the forms back come out.
std::vector<session::NewChild> otherForms(Story& story, std::size_t school, const SchoolTerm& term,
                                          const FormTerms& terms);
/// Takes a roster in on laptop A, all of it or none.
std::vector<roster::ChildId> enroll(Story& story, std::vector<session::NewChild> children);

} // namespace gk::demo
