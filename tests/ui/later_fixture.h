#pragma once

#include "chair_fixture.h"

namespace gk::test {

/// A child sealed on the first day, and the same school so many days later.
struct Later : Chair {
  roster::ChildId wren = clinic.child("Wren", "Castlebury");

  explicit Later(int days) {
    clinic.standardVisit(wren);
    clinic.clock.advance(std::chrono::hours(24 * days));
    clinic.session.confirmClock();
    const auto today = clinic.clock.now().date();
    auto setup = acting.now(); // the hygienist of the first day may have no licence any more
    setup.author = must(clinic.session.enterMember(
        clinic.by, {"Tamsin Quillbrook", "TQ", roster::Role::hygienist, "HY-00588",
                    today.plusDays(300), roster::usualTasks(roster::Role::hygienist)}));
    acting.change(setup);
    clinic.by = acting.by();
    const auto term = must(clinic.session.enterTerm(
        clinic.by, {"Next term", today.plusDays(-20), today.plusDays(30), {}}));
    clinic.day = must(clinic.session.openDay(
        clinic.by,
        {.term = term, .school = clinic.school, .date = today, .reason = "another term"}));
    auto form = clinic.form(wren);
    form.term = term;
    form.signedOn = today.plusDays(-20);
    form.receivedOn = today.plusDays(-10);
    form.validFrom = today.plusDays(-10);
    form.validUntil = today.plusDays(200);
    must(clinic.session.enterConsent(clinic.by, form));
    open();
  }
};

} // namespace gk::test
