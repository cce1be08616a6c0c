"""The peer that `cargo bench --bench recovery` holds Peewit against: what an engineer would write in numpy instead.

Compared is the pace alone, simulated seconds a second on one core: the same point mass, a ring's field of directions
with its bank fed forward, first-order bank, Dryden-like gusts, height hold, and at every step the distance to every
edge of one outline with 24 of them, in steps of 0.05 s. It flies no autopilot that errs, draws no jets, has one limit for Peewit's many and
looks at samples only. It is vectorised over runs and prints the one number."""
import numpy as np, time, sys
n=int(sys.argv[1]) if len(sys.argv)>1 else 4096
steps=int(sys.argv[2]) if len(sys.argv)>2 else 400
dt=0.05; g=9.80665; V=25.0; R=80.0
rng=np.random.default_rng(1)
ang=np.linspace(0,2*np.pi,25); P=np.c_[300*np.cos(ang),200*np.sin(ang)]
A=P[:-1]; E=P[1:]-P[:-1]; L2=(E**2).sum(1)
x=np.full(n,200.0)+np.arange(n)*1e-3; y=np.full(n,10.0); h=np.full(n,40.0)
c=np.ones(n); s=np.zeros(n); tb=np.zeros(n); gu=np.zeros((3,n)); m=np.full(n,1e9); mh=np.full(n,1e9)
t0=time.perf_counter()
for k in range(steps):
    gu=gu*(1-dt*0.25)+rng.standard_normal((3,n))*0.3
    sh=0.6+h*0.006-h*h*1e-5
    wx=5*sh+gu[0]; wy=1*sh+gu[1]
    vx=V*c+wx; vy=V*s+wy
    r=np.sqrt(x*x+y*y+1e-3); ux=x/r; uy=y/r; d=(r-R)/40
    tx=-uy-d*ux; ty=ux-d*uy; it=1/np.sqrt(tx*tx+ty*ty); tx*=it; ty*=it
    vg2=vx*vx+vy*vy; iv=1/np.sqrt(vg2)
    cr=(vx*ty-vy*tx)*iv; dot=(vx*tx+vy*ty)*iv
    err=np.where(dot<0,np.sign(cr),cr)
    cmd=np.clip(vg2/(g*r)+1.5*err,-1,1)
    tb+=(cmd-tb)*dt*3
    w=g*tb/V*dt; w2=w*w/2
    c,s=c*(1-w2)-s*w, s*(1-w2)+c*w
    q=1.5-(c*c+s*s)/2; c*=q; s*=q
    x+=vx*dt; y+=vy*dt; h+=(np.clip((60-h)*0.5,-4,4)+gu[2])*dt
    mh=np.minimum(mh,h)
    px=x[:,None]-A[:,0]; py=y[:,None]-A[:,1]
    t=np.clip((px*E[:,0]+py*E[:,1])/L2,0,1)
    qx=px-E[:,0]*t; qy=py-E[:,1]*t
    m=np.minimum(m,(qx*qx+qy*qy).min(1))
w=time.perf_counter()-t0
print(n*steps*dt/w)
