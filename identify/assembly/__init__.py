"""A made-up hose: length, orientation, rating, bends, flow, squeezing, cleanliness, as arithmetic.

Pure functions over frozen values; all lengths in millimetres, pressures in bar. Figures of makers
are entered with their source and never proposed; tables come from `rules/assembly.yaml`
(`knowledge.assembly_tables`). Whoever draws up a sheet takes these names from here.
"""

from identify.assembly.bends import bend_length as bend_length
from identify.assembly.bends import check_bend as check_bend
from identify.assembly.bends import impulse_sample as impulse_sample
from identify.assembly.bends import least_straight as least_straight
from identify.assembly.bends import moving_allowance as moving_allowance
from identify.assembly.bends import routed_length as routed_length
from identify.assembly.bends import with_shortening as with_shortening
from identify.assembly.cleanliness import code_of as code_of
from identify.assembly.cleanliness import is_clean_enough as is_clean_enough
from identify.assembly.cleanliness import iso_of_nas as iso_of_nas
from identify.assembly.cleanliness import parse_class as parse_class
from identify.assembly.flow import Flow as Flow
from identify.assembly.flow import pressure_drop as pressure_drop
from identify.assembly.flow import usual_velocity as usual_velocity
from identify.assembly.flow import velocity as velocity
from identify.assembly.lengths import CutOff as CutOff
from identify.assembly.lengths import allowed as allowed
from identify.assembly.lengths import best_aim as best_aim
from identify.assembly.lengths import cut_length as cut_length
from identify.assembly.lengths import error_budget as error_budget
from identify.assembly.lengths import fits as fits
from identify.assembly.lengths import free_length as free_length
from identify.assembly.lengths import measured_from as measured_from
from identify.assembly.lengths import square_limit as square_limit
from identify.assembly.lengths import under_pressure as under_pressure
from identify.assembly.orientation import Convention as Convention
from identify.assembly.orientation import angle_of as angle_of
from identify.assembly.orientation import angle_tolerance as angle_tolerance
from identify.assembly.orientation import converted as converted
from identify.assembly.orientation import from_clock as from_clock
from identify.assembly.orientation import from_other_end as from_other_end
from identify.assembly.orientation import in_words as in_words
from identify.assembly.orientation import to_clock as to_clock
from identify.assembly.rating import RatedPart as RatedPart
from identify.assembly.rating import assembly_rating as assembly_rating
from identify.assembly.rating import proof_and_burst as proof_and_burst
from identify.assembly.squeezing import RULE as RULE
from identify.assembly.squeezing import Target as Target
from identify.assembly.squeezing import die_setting as die_setting
from identify.assembly.squeezing import judge_diameters as judge_diameters
from identify.reading.quantities import parse_bar as parse_bar
from identify.reading.quantities import parse_density as parse_density
from identify.reading.quantities import parse_flow as parse_flow
from identify.reading.quantities import parse_viscosity as parse_viscosity
