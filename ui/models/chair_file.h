#pragma once

#include "session/session.h"

namespace gk::ui {

/// All that the chair shows of one child on one day, read back from the book after every act.
struct ChairFile {
  base::Recorded<roster::Program> program;
  base::Recorded<roster::ClinicDay> day;
  base::Recorded<roster::Child> child;
  session::IdentityCard card;
  std::optional<base::Recorded<chairside::Screening>> screening{}; ///< of the day
  std::vector<base::Recorded<chairside::Placement>> placements{};  ///< of the day
  std::vector<session::FieldState> fields{};
  std::vector<session::EarlierPlacement> earlier{};
  bool varnished = false; ///< on the day
  /// What was said of wiping and bite since the last tooth was sealed.
  std::optional<base::Recorded<chairside::AfterCure>> afterCure{};
  /// Of this day, or of an earlier one and still open: decided once.
  std::optional<base::Recorded<followup::Referral>> referral{};
  /// Only where the program waits for a dentist.
  std::vector<base::Recorded<chairside::Authorization>> authorizations{};
  std::vector<base::Recorded<kit::Lot>> lots{};
  std::vector<base::Recorded<kit::Light>> lights{};
  std::vector<base::Recorded<roster::Member>> members{};

  /// The field that is not finished yet, if any.
  [[nodiscard]] const session::FieldState* fieldInHand() const;
  [[nodiscard]] const kit::Lot* lot(const std::optional<kit::LotId>& id) const;
  [[nodiscard]] const kit::Light* light(const std::optional<kit::LightId>& id) const;
  [[nodiscard]] const roster::Member* member(const std::optional<base::MemberId>& id) const;
};

/// Fails as the session's readers do; `vaultLocked` while names are locked.
base::Result<ChairFile> readChair(session::Session& session, roster::ChildId child,
                                  roster::DayId day);
/// Reads again only what chair acts touch: screening, placements, fields, checks, varnish,
/// authorizations. A failure leaves `file` as it was.
base::Result<base::Done> readWork(session::Session& session, ChairFile& file);

} // namespace gk::ui
