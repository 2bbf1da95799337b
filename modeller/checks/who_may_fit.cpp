#include "modeller/checks/who_may_fit.h"

#include "modeller/checks/saying.h"

namespace halfhard {

void check_who_may_fit(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  std::string tells;
  switch (run.service) {
    case Service::gas:
      tells = " carries gas: only a registered gas fitter may fit it, test it and put it to use.";
      break;
    case Service::vent:
      tells = " is a vent, a safety pipe: only a competent person may fit it, and never with a valve or a dip in it.";
      break;
    case Service::discharge:
      tells = " is a discharge pipe: on unvented hot water only a person registered for it may fit it, and where it " +
              std::string("ends must be seen and safe.");
      break;
    default:
      return;
  }
  findings.push_back(say("registered-person", Severity::note, run, in_quotes(run.name) + tells,
                         {0, 0, "", "the law where the pipe is fitted decides"}));
}

}  // namespace halfhard
