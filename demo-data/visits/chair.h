#pragma once

#include "telling/story.h"

namespace gk::demo {

/// The tooth of each half that saliva reaches after it looked frosty.
enum class Saliva { none, onUpper, onLower };

/// Who works at a chair, with what, and on which laptop it is written down.
struct Chair {
  Story& story;
  session::Session& book;
  roster::DayId day;
  base::Date date;
  base::MemberId clinician;
  std::optional<base::MemberId> assistant; ///< none when working two-handed
  base::MemberId recorder;
  kit::LightId light;
  kit::LotId sealant;
  kit::LotId varnish;
  chairside::Isolation isolation = chairside::Isolation::rollsAndCheekPads;
  Saliva saliva = Saliva::none;

  [[nodiscard]] Teller& tell() const { return story.teller; }
  [[nodiscard]] base::By by() const { return {clinician, recorder}; }
};

/// One group of teeth kept dry together, from isolation to check.
class Half {
 public:
  /// Isolates the teeth, all their usual surfaces, or `surfaces` of each.
  Half(const Chair& chair, roster::ChildId child, std::vector<dentition::ToothSurfaces> teeth,
       std::optional<kit::LotId> otherMaterial = std::nullopt);

  void etch(const std::vector<dentition::ToothSurfaces>& teeth, chairside::EtchReason reason);
  /// Rinse and dry, frosty.
  void dry(const std::vector<dentition::ToothSurfaces>& teeth);
  void flow();
  void cure(const dentition::ToothSurfaces& tooth, kit::LightId light);
  /// The light dies after so long.
  void cureInterrupted(const dentition::ToothSurfaces& tooth, kit::LightId light,
                       base::Milliseconds after, const std::string& why);
  void check(const dentition::ToothSurfaces& tooth);
  void wet(dentition::Tooth tooth, chairside::WetStage stage);
  void stop(const std::string& why);
  /// All steps, nothing out of the ordinary.
  void sealAll();
  /// Glass ionomer: dry, flow, wait, check.
  void coverAll(int waitSeconds);

  [[nodiscard]] const std::vector<dentition::ToothSurfaces>& teeth() const { return teeth_; }
  [[nodiscard]] chairside::FieldId id() const { return *field_; }

 private:
  chairside::TimerId start(chairside::Step step, std::vector<dentition::ToothSurfaces> teeth,
                           base::Seconds target, std::optional<kit::LightId> light);
  void enter(const chairside::StepRun& run);
  [[nodiscard]] base::Seconds etchTarget(chairside::EtchReason reason) const;

  const Chair& chair_;
  std::vector<dentition::ToothSurfaces> teeth_;
  std::optional<chairside::FieldId> field_;
};

dentition::ToothSurfaces usual(int iso);

void seat(const Chair& chair, roster::ChildId child);
/// The screening that a plan amounts to.
chairside::Screening screeningOf(const Chair& chair, roster::ChildId child, const ChildPlan& plan);
void screen(const Chair& chair, const chairside::Screening& screening);
/// Right half, then left; a half with teeth to be stopped is isolated and then left.
void treat(const Chair& chair, roster::ChildId child, const ChildPlan& plan);
void varnish(const Chair& chair, roster::ChildId child);
void end(const Chair& chair, roster::ChildId child, chairside::DayEnd end,
         const std::string& reason = "");
/// Referral, and for an urgent one a call that reaches the guardian and a word to the nurse.
void refer(const Chair& chair, roster::ChildId child, chairside::Urgency urgency,
           const std::string& reason);
/// Seats, screens, seals, varnishes and ends as planned.
void visit(const Chair& chair, roster::ChildId child, const ChildPlan& plan);

} // namespace gk::demo
