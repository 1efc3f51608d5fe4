"""What is handed over each week: change sheet, night sheet, summary, calendar, tables.

Formatting only: every number is the plan's, through `scheduler.units`. Files: `told`
(words they share), one file a paper, `lanes` (the drawing of a night), and what prints
them. Each is loaded only when its paper is asked for.
"""
