#include "store/closing_rows.h"
#include "store/kit_rows.h"
#include "store/record_io.h"

namespace gk::store {

GK_RECORD(kit::Light)
GK_RECORD(kit::MeterReading)
GK_RECORD(kit::Lot)
GK_RECORD(kit::LotCount)
GK_RECORD(kit::CureTime)
GK_RECORD(kit::ReadinessCheck)
GK_RECORD(kit::LightPass)

} // namespace gk::store
