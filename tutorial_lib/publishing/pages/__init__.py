"""Pages of the companion sheet, one module a topic: functions from a plan to blocks, and pages(plan)."""
