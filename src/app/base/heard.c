#include "base/heard.h"

static float part(double v, double whole)
{
    return whole > 0.0 ? (float)(v / whole) : 0.0f;
}

AudioParams app_heard(const PbSignals *s, const PbMachine *m, double volume)
{
    return (AudioParams){.speed = (float)s->blower_speed,
                         .pressure = part(s->blower_pa, m->static_pa),
                         .flow = part(s->flow_m3_s, m->open_flow_m3_s),
                         .feed = part(s->feed_set_kg_s, m->feed_max_kg_s),
                         .rattle = (float)s->rattle,
                         .pulse = (float)s->hose_pulse,
                         .hiss = (float)s->leak_hiss,
                         .creak = (float)s->creak,
                         .volume = (float)volume,
                         .machine_on = s->machine_on,
                         .plugged = s->plugged};
}
