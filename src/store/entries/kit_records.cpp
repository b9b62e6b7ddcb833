#include "store/entries/record_io.h"
#include "store/records/closing_rows.h"
#include "store/records/kit_rows.h"

namespace gk::store {

GK_RECORD(kit::Light)
GK_RECORD(kit::MeterReading)
GK_RECORD(kit::Lot)
GK_RECORD(kit::LotCount)
GK_RECORD(kit::CureTime)
GK_RECORD(kit::ReadinessCheck)
GK_RECORD(kit::LightPass)

} // namespace gk::store
