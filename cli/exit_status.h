#pragma once

namespace drystage::cli {

/// What the command tells the shell.
enum ExitStatus : int {
  holds = 0,  ///< run: every reserve keeps its margin; check: the file is right; needs: every
              ///< morning has what it must have; mishaps: no single one of those that were to
              ///< be tried runs a reserve dry on which life hangs, and all were tried;
              ///< size: a set on offer is enough, and the search was not stopped; card: as run;
              ///< start: a plan was written
  fails = 1,  ///< the plan can be run, and that is not so
  wrong = 2,  ///< the plan or the command line is wrong
  io = 3,     ///< a file could not be read or written; no font, or no memory, is to be had
  our_fault = 70,  ///< a fault of ours
};

}  // namespace drystage::cli
