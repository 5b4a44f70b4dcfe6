"""What the process has from which the others are forked: the solvers, and its end when the desk ends."""

from verifier.intake.workers.parent import end_with_parent

end_with_parent()  # first of all: loading takes its time

import verifier.desk.answers.questions  # noqa: E402, F401
