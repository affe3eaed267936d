-- Tests of the panel are made of mix stirred in a cup, cast in a ring, or taken apart.
alter table item drop constraint item_form_word;
alter table item add constraint item_form_word
  check (form in ('disc', 'strip', 'biscuit', 'pill', 'cup', 'ring', 'loose'));
