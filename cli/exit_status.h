#pragma once

namespace drystage::cli {

/// What the command tells the shell.
enum ExitStatus : int {
  holds = 0,       ///< every reserve keeps its margin; the file is right
  fails = 1,       ///< the plan runs and some reserve does not keep its margin
  wrong = 2,       ///< the plan or the command line is wrong
  io = 3,          ///< a file could not be read or written
  our_fault = 70,  ///< a fault of ours
};

}  // namespace drystage::cli
