-- A cohesion tester is checked by the pressure of its foot and by the torque on a check surface.
alter table instrument_check drop constraint instrument_check_kind_word;
alter table instrument_check add constraint instrument_check_kind_word
  check (kind in ('known-mass', 'temperature', 'load', 'dimension', 'pressure', 'torque'));
