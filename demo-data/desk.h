#pragma once

#include "story.h"

namespace gk::demo {

/// What a form of the story allows.
struct FormTerms {
  Autumn autumn;
  base::Date received;
  bool forTwoYears = false; ///< this and the next school year, with "recheck and replace" ticked
};

/// The pupils of each grade that the program serves.
void enterEnrolments(Story& story, Autumn autumn);

/// Enrols a child on laptop A; the number's digits are `digits`, or the next free ones.
roster::ChildId enrol(Story& story, std::size_t school, const std::string& grade,
                      const session::Identity& identity, dentition::Sex sex,
                      std::optional<int> digits = std::nullopt);
/// An invented child of that grade in that autumn.
roster::ChildId enrolInvented(Story& story, Autumn autumn, std::size_t school,
                              const std::string& grade);

roster::Consent yesForm(const Story& story, roster::ChildId child, const FormTerms& terms);
void enterYes(Story& story, roster::ChildId child, const FormTerms& terms);
/// A no, or a form that lacks its signature.
void enterNo(Story& story, roster::ChildId child, const FormTerms& terms);
void enterIncomplete(Story& story, roster::ChildId child, const FormTerms& terms);

/// Children with a form that is no yes, so that `formsBack` comes out.
void enterOtherForms(Story& story, std::size_t school, const SchoolTerm& term, int count,
                     const FormTerms& terms);

} // namespace gk::demo
