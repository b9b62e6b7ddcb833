#pragma once

#include "exchange/extract/records.h"

#include <iosfwd>

namespace gk::exchange {

/// Writes a clinic day as one HL7 FHIR R4 Bundle of type collection (hl7.org/fhir/R4): Consent,
/// Observation (screening, tooth, retention check) and Procedure (sealant, varnish), and a Patient
/// for each child of `people` whose form lets the program share with a nurse or a dentist on that
/// day. Other children are spoken of by the program's number alone. Terms are given in words and
/// in code systems of our own; licensed code sets are not used. Free text never leaves.
/// Precondition: one day in `records.days`.
void writeFhir(const Records& records, const People& people, base::LocalInstant now,
               std::ostream& out);

} // namespace gk::exchange
