// How figures are shown lives with the plan, since findings speak of figures too.
export * from '../plan/display';
