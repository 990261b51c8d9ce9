/* The state behind a session, for its other files and for tests. */
#ifndef SESSION_PRIVATE_H
#define SESSION_PRIVATE_H

#include "core/session.h"
#include "pack/sim.h"

const PbSim *pb_session_sim(const PbSession *session);
PbAllocator pb_session_allocator(const PbSession *session);

#endif
