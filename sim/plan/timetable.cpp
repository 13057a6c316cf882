#include "plan/timetable.h"

#include "plan/schedule.h"

namespace tidemark::plan {

namespace {

constexpr double late_s = 1; // a painter does not see less
constexpr std::size_t most_named = 8;

double due_s(const Step& step, int before, const std::vector<double>& end_s) {
    if (const AtTime* at = std::get_if<AtTime>(&step.start))
        return at->time_s;
    const AfterStep* after = std::get_if<AfterStep>(&step.start);
    return (before >= 0 ? end_s[before] : 0) + (after != nullptr ? after->wait_s : 0);
}

} // namespace

Timetable timetable(const Plan& plan, const BusyOf& busy_of) {
    const std::vector<Step>& steps = plan.steps;
    Timetable table{std::vector<NominalTime>(steps.size()), {}};
    std::vector<double> end_s(steps.size(), -1);
    double hand_free_s = 0;
    for (Next next; (next = next_step(steps, end_s, hand_free_s)).step >= 0;) {
        const Step& step = steps[next.step];
        const Dry* dry = std::get_if<Dry>(&step.act);
        const bool until = dry != nullptr && dry->until, when = std::holds_alternative<WhenStage>(step.start);
        const int before = predecessor(steps, next.step);
        NominalTime& time = table.times[next.step];
        time.waits_for_stage = until || when;
        if (before >= 0) {
            const Dry* wait = std::get_if<Dry>(&steps[before].act);
            time.start_is_earliest = table.times[before].start_is_earliest || (wait != nullptr && wait->until);
        }
        time.start_is_earliest = time.start_is_earliest || when;
        time.due_s = due_s(step, before, end_s);
        time.start_s = next.start_s;
        time.busy = busy_of(next.step);
        time.end_s = next.start_s + (dry == nullptr ? time.busy.seconds : until ? 0 : dry->longest_s);
        end_s[next.step] = time.end_s;
        if (dry == nullptr)
            hand_free_s = time.end_s;
        table.order.push_back(next.step);
    }
    return table;
}

Clashes clashes(const Timetable& table) {
    Clashes found;
    for (std::size_t k = 0; k < table.order.size(); ++k) {
        const int step = table.order[k];
        const NominalTime& time = table.times[step];
        if (time.start_is_earliest && time.busy.seconds > 0) {
            found.first_uncertain = step;
            break;
        }
        if (time.start_is_earliest || time.start_s - time.due_s <= late_s)
            continue;
        Clash clash{step, {}, 0};
        for (std::size_t e = 0; e < k; ++e) {
            const NominalTime& earlier = table.times[table.order[e]];
            if (!(earlier.busy.seconds > 0 && earlier.end_s > time.due_s))
                continue;
            if (clash.hand_has.size() < most_named)
                clash.hand_has.push_back(table.order[e]);
            else
                ++clash.more;
        }
        found.certain.push_back(std::move(clash));
    }
    return found;
}

} // namespace tidemark::plan
