// A set of surfaces holds surfaces and nothing else.
#include "dentition/surfaces.h"

gk::dentition::SurfaceSet check() {
#ifdef GK_WRONG
  return gk::dentition::SurfaceSet{1};
#else
  return gk::dentition::SurfaceSet{gk::dentition::Surface::occlusal};
#endif
}
