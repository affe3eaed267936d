-- How a trial mix looked while it was stirred, and how it broke. Null: nobody noted it.
ALTER TABLE "trial_cup" ADD COLUMN "consistency" TEXT, ADD COLUMN "broke" TEXT;

alter table trial_cup add constraint trial_cup_consistency_word check (consistency in ('stiff', 'creamy', 'runny', 'segregating'));
alter table trial_cup add constraint trial_cup_broke_word check (broke in ('gradual', 'sudden', 'lumps', 'not-broken'));
grant insert (consistency, broke) on trial_cup to curebook_app;
