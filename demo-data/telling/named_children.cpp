#include "telling/named_children.h"

#include "telling/desk.h"

namespace gk::demo {

namespace {

using dentition::Sex;

session::Identity named(const char* first, const char* last, base::Date birth, const char* room,
                        session::Guardian guardian) {
  return {.first = first,
          .last = last,
          .birth = birth,
          .room = room,
          .teacher = std::string("room ") + room,
          .guardians = {std::move(guardian)}};
}

session::Guardian guardian(const char* name, const char* relation, const char* phone,
                           const char* language = "English") {
  return {name, relation, phone, language};
}

/// Typed 1997 for 2019: no one in second grade is 29.
void mistypeSol(Story& story) {
  story.teller.at("the birth year of Sol, typed wrong");
  const roster::Child child{.number = roster::withCheckDigit("1057"),
                            .birth = {1997, 3},
                            .school = story.schools.at(cobbleLantern),
                            .grade = "2",
                            .room = "7"};
  const auto refused =
      story.a->enrollChild({story.team->ines, {}}, child,
                           named("Sol", "Hatherwick", on(1997, 3, 12), "7",
                                 guardian("Petra Hatherwick", "mother", "000-555-0157")),
                           session::Confirmed::yes);
  story.teller.mustRefuse(refused, base::ErrorCode::ruleBirthDate);
}

/// Both parents sent a form and they disagree: no one's wins by its date.
void enterRubensForms(Story& story, roster::ChildId ruben, const FormTerms& terms) {
  enterForm(story, yesForm(story, ruben, terms));
  enterForm(story, noForm(story, ruben, terms));
}

} // namespace

SchoolTerm withoutNamed(SchoolTerm term) {
  term.formsBack -= 14; // the ten, Nell; and with forms that are no yes: Jory, Nils, Ruben
  term.consented -= 11;
  term.screened -= 11;
  term.needing -= 10; // not Hana
  term.sealed -= 10;
  term.unfinished -= 1;   // Teodor
  term.firstMolars -= 33; // Mina 4, Osei 4, Lupe 3, Teodor 2, Wren 1, Idris 4, Pia 3, Calla 4,
                          // Osei 4, Nell 4
  term.varnish -= 9;      // not Teodor, not Hana
  term.early -= 1;        // Lupe
  term.urgent -= 1;       // Hana
  return term;
}

session::NewChild wrenIn2025(Story& story) {
  return newChild(story, cobbleLantern, "2",
                  named("Wren", "Castlebury", on(2018, 1, 23), "7",
                        guardian("Maud Castlebury", "mother", "000-555-0147")),
                  Sex::female, 1047);
}

NamedChildren enrollNamed(Story& story, roster::ChildId wren, base::Date received) {
  story.teller.at("the forms of rooms 6 and 7");
  const FormTerms terms{Autumn::of2026, received};
  const auto enter = [&](int digits, const char* grade, Sex sex, const session::Identity& who) {
    const auto child = newChild(story, cobbleLantern, grade, who, sex, digits);
    return story.teller.must(story.a->enrollChild({story.team->ines, {}}, child.child,
                                                  child.identity, session::Confirmed::no,
                                                  session::Confirmed::yes));
  };
  const auto consented = [&](int digits, const char* grade, Sex sex, const session::Identity& who) {
    const auto child = enter(digits, grade, sex, who);
    enterForm(story, yesForm(story, child, terms));
    return child;
  };
  using enum Sex;
  const auto mina = consented(1043, "2", female,
                              named("Mina", "Tolliver-Reed", on(2019, 5, 9), "6",
                                    guardian("Tess Tolliver", "mother", "000-555-0143")));
  const auto osei = consented(1044, "2", male,
                              named("Osei", "Brackwater", on(2018, 10, 4), "6",
                                    guardian("Efua Brackwater", "mother", "000-555-0144")));
  const auto lupe =
      consented(1045, "2", female,
                named("Lupe", "Saltmarsh", on(2019, 2, 17), "6",
                      guardian("Rosa Saltmarsh", "mother", "000-555-0145", "Spanish")));
  const auto teodor = consented(1046, "2", male,
                                named("Teodor", "Finch-Abbey", on(2019, 6, 28), "6",
                                      guardian("Marek Finch", "father", "000-555-0146")));
  story.teller.must(story.a->moveChild({story.team->ines, {}}, wren,
                                       story.schools.at(cobbleLantern), "3", "7",
                                       "in room 7 this year"));
  enterForm(story, yesForm(story, wren, terms));
  const auto idris = consented(1048, "2", male,
                               named("Idris", "Mallowfield", on(2018, 9, 30), "7",
                                     guardian("Nadia Mallowfield", "mother", "000-555-0148")));
  const auto pia = consented(1049, "2", female,
                             named("Pia", "Lindenholt", on(2019, 12, 2), "7",
                                   guardian("Jan Lindenholt", "father", "000-555-0149")));
  const auto calla = consented(1050, "2", female,
                               named("Calla", "Dovecote", on(2019, 3, 21), "7",
                                     guardian("Ruth Dovecote", "grandmother", "000-555-0150")));
  story.teller.must(story.a->enterFlag({story.team->ines, {}},
                                       {.child = calla,
                                        .kind = roster::FlagKind::rosinReaction,
                                        .action = roster::FlagAction::stop,
                                        .detail = "rash under sticking plaster, from the form"}));
  const auto otherOsei = consented(1051, "3", male,
                                   named("Osei", "Brackwater", on(2018, 3, 11), "6",
                                         guardian("Kofi Brackwater", "father", "000-555-0151")));
  const auto hana = consented(1052, "2", female,
                              named("Hana", "Brookmere", on(2019, 4, 14), "7",
                                    guardian("Yuki Brookmere", "mother", "000-555-0152")));
  const auto jory = consented(1053, "2", male,
                              named("Jory", "Amberly", on(2019, 7, 3), "6",
                                    guardian("Lena Amberly", "mother", "000-555-0153")));
  const auto twins = guardian("Ivo Farrowgate", "father", "000-555-0154");
  const auto nell =
      consented(1054, "2", female, named("Nell", "Farrowgate", on(2019, 1, 8), "7", twins));
  const auto nils = enter(1055, "2", male, named("Nils", "Farrowgate", on(2019, 1, 8), "7", twins));
  enterForm(story, noForm(story, nils, terms));
  const auto ruben = enter(1056, "2", male,
                           named("Ruben", "Castellane-Oake", on(2019, 8, 19), "6",
                                 guardian("Dana Castellane", "mother", "000-555-0156")));
  enterRubensForms(story, ruben, terms);
  mistypeSol(story);
  return {mina, osei, lupe, teodor, wren, idris, pia, calla, otherOsei, hana, jory, nell, ruben};
}

} // namespace gk::demo
