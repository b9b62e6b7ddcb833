#pragma once

#include "base/files/files.h"
#include "base/progress.h"
#include "crypto/derive.h"
#include "crypto/sealed.h"
#include "roster/days/clinic_day.h"
#include "session/reader.h"

namespace gk::session {

/// What stands in a day envelope beside the logbook, sealed with it.
struct EnvelopeNote {
  base::Uuid name{};  ///< of this envelope: it is taken once
  std::string book{}; ///< of which logbook it is
  base::Date day;     ///< on which it was sealed
  std::string school{};
  auto operator<=>(const EnvelopeNote&) const = default;
};

struct OpenedEnvelope {
  EnvelopeNote note;
  crypto::Bytes book; ///< the file of the logbook
};

/// A logbook with its note under a passphrase, as the bytes of a file: a mark with the version, a
/// salt, and libsodium's secretstream over all else, which authenticates mark and salt as well.
Result<crypto::Bytes> sealEnvelope(const EnvelopeNote& note, std::span<const std::uint8_t> book,
                                   const crypto::Secret& passphrase, crypto::KdfCost cost,
                                   base::Random& random);
/// All of it is authenticated before any of it is read. `envelopeUnreadable` for what is no
/// envelope or of a newer version, and for one that was cut off or changed in any byte, which
/// cannot be told from a wrong passphrase.
Result<OpenedEnvelope> openEnvelope(std::span<const std::uint8_t> file,
                                    const crypto::Secret& passphrase, crypto::KdfCost cost);

} // namespace gk::session
