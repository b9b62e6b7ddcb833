#pragma once

#include "chairside/screening.h"
#include "followup/retention_check.h"

#include <optional>
#include <set>

namespace gk::ui {

/// What one key says of the tooth under the cursor.
enum class ToothState {
  sound,
  early,
  cavity,
  filled,
  crown,
  gone,
  notUp,
  partUp,
  ours,
  oursInPart,
  elsewhere,
  operculum,
  gumOverCompanion,
  cannotSee,
  neverFormed,
  banded,
  fractured,
  opacity,
  opacityBroken,
  hypoplasia,
  fluorosisMild,
  fluorosisPitted,
  unknownOrigin,
  primaryStillHere,
  shed
};

/// A screening as it is keyed in, before it is recorded. A value: nothing here writes. Decisions
/// follow the program's rules until a person changes one.
class ScreeningDraft {
 public:
  /// `mayTreat`: whether consent covers sealants; where not, a tooth to seal is proposed as not
  /// allowed.
  ScreeningDraft(roster::Program program, bool mayTreat);

  /// Starts from what was recorded; its decisions count as a person's.
  void takeOver(const chairside::Screening& recorded);
  /// A check of today says what is on the tooth: what is whole, in part, and where it was lost what
  /// the check found the tooth to be. Its "reseal today" is decided, for the surfaces lost or
  /// lifted.
  void takeOver(const dentition::Tooth& tooth, const followup::RetentionCheck& check);

  /// On one surface, or on all that are usual for the tooth when `surface` is empty; a cavity, a
  /// filling, a band or a fracture without a surface is of the chewing surface.
  void set(const dentition::Tooth& tooth, ToothState state,
           std::optional<dentition::Surface> surface = {});
  /// Those second molars that nothing is said of. Never overwrites.
  void setSecondMolarsNotUp();
  /// The next decision that the rules let the tooth have.
  void changeDecision(const dentition::Tooth& tooth);
  /// All that can be sealed, the chewing surface alone, the companion alone, and round again.
  void changeSurfaces(const dentition::Tooth& tooth);
  void decide(const dentition::Tooth& tooth, chairside::Decision decision);
  /// A reseal of which no one has said why.
  [[nodiscard]] std::optional<dentition::Tooth> unexplainedReseal() const;
  void setResealWhy(const dentition::Tooth& tooth, chairside::ResealWhy why);
  void add(const dentition::Tooth& tooth);
  /// Such as an extra tooth beside it, or that it has drifted: no other place has a number for it.
  void setNote(const dentition::Tooth& tooth, std::string note);

  void answer(int choice); ///< 0, 1 or 2 to the question that is open; none when all are answered
  void askAgain();
  /// 0 untreated decay, 1 treated decay, 2 urgency, 3 when all are answered.
  [[nodiscard]] int openQuestion() const;
  void setUrgentReason(chairside::UrgentReason reason) { urgentReason_ = reason; }
  void setNote(std::string note) { note_ = std::move(note); }

  [[nodiscard]] const std::vector<chairside::ToothFinding>& teeth() const { return teeth_; }
  [[nodiscard]] const chairside::ToothFinding* find(const dentition::Tooth& tooth) const;
  [[nodiscard]] std::optional<chairside::Tri> untreated() const { return untreated_; }
  /// Untreated decay was answered by a charted cavity, and by no person.
  [[nodiscard]] bool isDecayCharted() const { return isDecayCharted_; }
  [[nodiscard]] std::optional<chairside::Tri> treated() const { return treated_; }
  [[nodiscard]] std::optional<chairside::Urgency> urgency() const { return urgency_; }
  [[nodiscard]] chairside::UrgentReason urgentReason() const { return urgentReason_; }
  [[nodiscard]] const std::string& note() const { return note_; }
  [[nodiscard]] bool isEmpty() const { return teeth_.empty() && openQuestion() == 0; }

  /// Whether enough is said of the tooth: it is up with its chewing surface looked at, or not up.
  [[nodiscard]] bool isSaid(const dentition::Tooth& tooth) const;
  /// The next permanent molar of which nothing is said, first molars before second; those that come
  /// after `here` first, and round again.
  [[nodiscard]] std::optional<dentition::Tooth>
  nextUnsaid(const std::optional<dentition::Tooth>& here = {}) const;
  /// What keeps it from being recorded, in words; empty when nothing does.
  [[nodiscard]] std::string missing() const;
  /// Precondition: nothing missing.
  [[nodiscard]] chairside::Screening build(roster::ChildId child, roster::DayId day) const;

 private:
  chairside::ToothFinding& at(const dentition::Tooth& tooth);
  void propose(chairside::ToothFinding& finding);
  void answerByChart();
  [[nodiscard]] dentition::SurfaceSet treatable(const chairside::ToothFinding& finding) const;

  roster::Program program_;
  bool mayTreat_;
  std::vector<chairside::ToothFinding> teeth_;
  std::set<dentition::Tooth> decided_; ///< a person chose; no proposal touches it
  std::optional<chairside::Tri> untreated_;
  bool isDecayCharted_ = false;
  std::optional<chairside::Tri> treated_;
  std::optional<chairside::Urgency> urgency_;
  chairside::UrgentReason urgentReason_ = chairside::UrgentReason::none;
  std::string note_;
};

/// "Sealing 4: upper right first molar, 3 (occlusal and lingual groove); ..." for reading aloud
/// before the first etch; says so when there is nothing to seal.
std::string pauseLine(const std::vector<chairside::ToothFinding>& teeth,
                      dentition::Notation notation);

} // namespace gk::ui
