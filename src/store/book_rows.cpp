#include "store/authorization_rows.h"
#include "store/book.h"
#include "store/chairside_rows.h"
#include "store/closing_rows.h"
#include "store/consent_rows.h"
#include "store/followup_rows.h"
#include "store/kit_rows.h"
#include "store/roster_rows.h"
#include "store/trouble.h"

namespace gk::store {

Act::Act(Connection& connection, ActStamp stamp, Position position, base::Random& random)
    : connection_(connection), stamp_(stamp), position_(position), random_(random) {}

base::EntryId Act::insertEntry(std::string_view kind, std::optional<base::Uuid> subject,
                               std::optional<base::EntryId> supersedes, const std::string& reason) {
  const auto id = base::nextUuid7(stamp_.at.at, position_.last, random_);
  position_ = {position_.sequence + 1, id};
  if (!act_) act_ = id;
  connection_
      .prepare("INSERT INTO entry (id, subject, act, kind, laptop, sequence, author, recorder, at, "
               "utc_offset, supersedes, reason) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
      .bindAll(id, subject.value_or(id), *act_, kind, stamp_.laptop, position_.sequence,
               stamp_.by.author, stamp_.by.recorder, stamp_.at.at,
               static_cast<int>(stamp_.at.offset.count()), supersedes, std::string_view(reason))
      .run();
  return base::EntryId(id);
}

void Act::retract(base::EntryId entry, const std::string& reason) {
  base::require(!reason.empty(), "a retraction needs a reason");
  insertEntry("retraction", entry.uuid(), entry, reason);
}

template <class T>
typename T::Key Act::add(const T& value) {
  const auto entry = insertEntry(Rows<T>::table, std::nullopt, std::nullopt, {});
  insertRow(connection_, entry, value);
  return typename T::Key(entry.uuid());
}

template <class T>
void Act::correct(const base::Recorded<T>& old, const T& value, const std::string& reason) {
  base::require(!reason.empty(), "a correction needs a reason");
  const auto entry = insertEntry(Rows<T>::table, old.id.uuid(), old.stamp.entry, reason);
  insertRow(connection_, entry, value);
}

template <class T>
void Act::sayAgain(const base::Recorded<T>& old, const T& value, const std::string& reason) {
  const auto now = stamp_.by;
  stamp_.by = {old.stamp.by.author, now.recorder ? now.recorder : now.author};
  correct(old, value, reason);
  stamp_.by = now;
}

template <class T>
base::Result<std::vector<base::Recorded<T>>> Book::current(const Where& where) {
  return guarded([&] { return selectRows<T>(connection_, where, "current_entry"); });
}

template <class T>
base::Result<std::vector<base::Recorded<T>>> Book::history(const Where& where) {
  return guarded([&] { return selectRows<T>(connection_, where, "entry"); });
}

// The record types of the book, once.
#define GK_RECORD(T)                                                                               \
  template T::Key Act::add(const T&);                                                              \
  template void Act::correct(const base::Recorded<T>&, const T&, const std::string&);              \
  template void Act::sayAgain(const base::Recorded<T>&, const T&, const std::string&);             \
  template base::Result<std::vector<base::Recorded<T>>> Book::current(const Where&);               \
  template base::Result<std::vector<base::Recorded<T>>> Book::history(const Where&);

GK_RECORD(roster::Program)
GK_RECORD(roster::Term)
GK_RECORD(roster::School)
GK_RECORD(roster::Enrolment)
GK_RECORD(roster::MealEligibility)
GK_RECORD(roster::ClinicDay)
GK_RECORD(roster::DayEffort)
GK_RECORD(roster::DayClosure)
GK_RECORD(roster::Member)
GK_RECORD(roster::Child)
GK_RECORD(roster::Background)
GK_RECORD(SealedIdentity)
GK_RECORD(roster::Consent)
GK_RECORD(roster::ConsentOverride)
GK_RECORD(roster::MedicalFlag)
GK_RECORD(kit::Light)
GK_RECORD(kit::MeterReading)
GK_RECORD(kit::Lot)
GK_RECORD(kit::LotCount)
GK_RECORD(kit::CureTime)
GK_RECORD(kit::ReadinessCheck)
GK_RECORD(chairside::Authorization)
GK_RECORD(chairside::Seating)
GK_RECORD(chairside::Screening)
GK_RECORD(chairside::Field)
GK_RECORD(chairside::TimerStart)
GK_RECORD(chairside::StepRun)
GK_RECORD(chairside::Wet)
GK_RECORD(chairside::Placement)
GK_RECORD(chairside::AfterCure)
GK_RECORD(chairside::Varnish)
GK_RECORD(chairside::DayOutcome)
GK_RECORD(chairside::PaperSheet)
GK_RECORD(followup::RetentionCheck)
GK_RECORD(followup::Referral)
GK_RECORD(followup::ContactAttempt)
GK_RECORD(followup::Letter)
GK_RECORD(followup::Incident)
GK_RECORD(followup::PaperCount)
GK_RECORD(followup::BackupNote)
GK_RECORD(followup::MergeAnswer)
GK_RECORD(kit::LightPass)
GK_RECORD(followup::IssuedReport)

} // namespace gk::store
