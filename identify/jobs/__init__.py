"""What is kept: jobs, their hoses and both ends of each, in files that only grow.

`job` holds the values and how one step changes them, `facts` the steps that are no answers,
`reference` the name on the label. `journal` is the file of one job with its `records` and `locks`;
`saving` and `course` keep the running interview there. `index` answers searches and may be deleted,
`shelf` is the folder as a whole. The files are the truth: nothing stands in the index only.
"""
